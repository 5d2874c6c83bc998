//! Answers that the journal would not take, in a file of their own.

use std::fmt;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::disk::{flush_names, private, remove};
use super::failure::{WriteError, quoted};

/// How the names of rescue files begin and end.
const NAME: (&str, &str) = ("plagal-unsaved-", ".jsonl");

/// Where the answers are now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rescued {
    /// The file that they were written to.
    pub file: PathBuf,
    /// How many there are.
    pub answers: usize,
}

impl fmt::Display for Rescued {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.answers {
            1 => f.write_str("1 answer that the journal refused is")?,
            n => write!(f, "{n} answers that the journal refused are")?,
        }
        let file = quoted(&self.file);
        write!(f, " in {file}; `plagal journal merge` takes that file in")
    }
}

/// A rescue file, made when it is needed.
#[derive(Debug)]
pub(super) struct Rescue {
    /// Where it may be, the best first.
    paths: Vec<PathBuf>,
    kept: Option<Kept>,
}

/// The rescue file as it stands. It is locked as long as its program lives, so that
/// [`left_behind`] passes it over.
#[derive(Debug)]
struct Kept {
    path: PathBuf,
    file: File,
    /// The bytes that are whole answers.
    length: u64,
    answers: usize,
}

impl Rescue {
    pub(super) fn new(session: &str, folders: &[PathBuf]) -> Self {
        let name = format!("{}{session}{}", NAME.0, NAME.1);
        Self {
            paths: folders.iter().map(|folder| folder.join(&name)).collect(),
            kept: None,
        }
    }

    /// Puts `lines` on disk, of which the first may be there from the last time.
    ///
    /// # Errors
    /// With what every place said, when none takes them.
    pub(super) fn keep(&mut self, lines: &[String]) -> Result<(), Vec<(PathBuf, WriteError)>> {
        let mut refused = Vec::new();
        if let Some(kept) = &mut self.kept {
            match kept.add(&lines[kept.answers..]) {
                Ok(()) => return Ok(()),
                Err(error) => refused.push((kept.path.clone(), error.into())),
            }
        }
        let held = self.kept.as_ref().map(|kept| kept.path.clone());
        for path in self.paths.iter().filter(|path| held.as_ref() != Some(path)) {
            match Kept::create(path, lines) {
                Ok(kept) => {
                    self.kept = Some(kept);
                    return Ok(());
                }
                Err(error) => refused.push((path.clone(), error.into())),
            }
        }
        Err(refused)
    }

    pub(super) fn rescued(&self) -> Option<Rescued> {
        self.kept.as_ref().map(|kept| Rescued {
            file: kept.path.clone(),
            answers: kept.answers,
        })
    }

    /// The journal has taken the answers after all. A file that cannot be removed does no
    /// harm: merging knows its answers again.
    pub(super) fn discard(&mut self) {
        if let Some(kept) = self.kept.take() {
            let _ = remove(&kept.path);
        }
    }
}

impl Kept {
    fn create(path: &Path, lines: &[String]) -> io::Result<Self> {
        let file = private().append(true).create_new(true).open(path)?;
        // Where there are no locks, the worst is that it is told of too early.
        let _ = file.try_lock();
        let mut kept = Self {
            path: path.to_owned(),
            file,
            length: 0,
            answers: 0,
        };
        let added = kept.add(lines).and_then(|()| flush_names(path));
        added.inspect_err(|_| {
            // Half of it would look like all of it.
            let _ = remove(path);
        })?;
        Ok(kept)
    }

    /// Adds `lines`; what is written of them when it fails goes again, now or with the next
    /// attempt.
    fn add(&mut self, lines: &[String]) -> io::Result<()> {
        self.file.set_len(self.length)?;
        let text = lines.concat();
        let written = self.file.write_all(text.as_bytes());
        written
            .and_then(|()| self.file.sync_data())
            .inspect_err(|_| {
                let _ = self.file.set_len(self.length);
            })?;
        self.length += text.len() as u64;
        self.answers += lines.len();
        Ok(())
    }
}

/// Rescue files in these folders that no program is using: a program before has left them,
/// and nobody has merged and removed them yet.
#[must_use]
pub fn left_behind(folders: &[PathBuf]) -> Vec<PathBuf> {
    let is_left = |path: &PathBuf| {
        let name = path.file_name().and_then(|name| name.to_str());
        name.is_some_and(|name| name.starts_with(NAME.0) && name.ends_with(NAME.1))
            && fs::symlink_metadata(path).is_ok_and(|data| data.is_file())
            && File::open(path).is_ok_and(|file| file.try_lock_shared().is_ok())
    };
    let entries = folders
        .iter()
        .filter_map(|folder| fs::read_dir(folder).ok());
    let paths = entries.flatten().flatten().map(|entry| entry.path());
    let mut left: Vec<PathBuf> = paths.filter(is_left).collect();
    left.sort();
    left
}

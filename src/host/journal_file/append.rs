//! Appending: one write and one flush to disk an answer, under a lock, so that two
//! programs may share a journal and a crash costs at most the answer being written.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use super::failure::{NotKept, Why};
use super::rescue::{Rescued, rescue};
use super::tail;
use crate::journal::{Entry, print};

/// How long an answer waits for another program to let go of the file.
pub(super) const PATIENCE: Duration = Duration::from_secs(2);

/// What opening found and set right.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mended {
    /// Bytes of a torn last line, now in a file beside the journal.
    pub set_aside: u64,
}

/// A journal that answers are appended to. It holds no open file between answers, so
/// another program may rewrite or move the journal in the meantime.
#[derive(Debug)]
pub struct JournalFile {
    path: PathBuf,
    waiting: Vec<String>,
}

impl JournalFile {
    /// Names the journal and mends its tail. A missing file is made at the first answer.
    ///
    /// # Errors
    /// When the file is there but cannot be mended; answers can still be given to
    /// [`Self::append`], which tries again.
    pub fn open(path: &Path) -> (Self, Result<Mended, NotKept>) {
        let journal = Self {
            path: path.to_owned(),
            waiting: Vec::new(),
        };
        let mended = if path.exists() {
            journal.mend().map_err(|why| journal.not_kept(why))
        } else {
            Ok(Mended::default())
        };
        (journal, mended)
    }

    /// Where the journal is.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Answers that are not on disk yet.
    #[must_use]
    pub fn waiting(&self) -> usize {
        self.waiting.len()
    }

    /// Writes the entry, and any that still waits, and flushes it to disk.
    ///
    /// # Errors
    /// When it is not on disk. Nothing of it is left in the file; it waits in memory for
    /// the next call or for [`Self::try_again`].
    pub fn append(&mut self, entry: &Entry) -> Result<(), NotKept> {
        self.waiting.push(print(entry));
        self.try_again()
    }

    /// Writes what waits.
    ///
    /// # Errors
    /// When it still is not on disk.
    pub fn try_again(&mut self) -> Result<(), NotKept> {
        if self.waiting.is_empty() {
            return Ok(());
        }
        match self.write(self.waiting.concat().as_bytes()) {
            Ok(()) => {
                self.waiting.clear();
                Ok(())
            }
            Err(why) => Err(self.not_kept(why)),
        }
    }

    /// Tries once more to write what waits, and where the journal still refuses puts it
    /// into a file of its own in the first of `folders` that takes it. Nothing when
    /// nothing waits.
    ///
    /// # Errors
    /// When no folder takes it either; it still waits.
    pub fn settle(
        &mut self,
        session: &str,
        folders: &[PathBuf],
    ) -> Result<Option<Rescued>, NotKept> {
        if self.try_again().is_ok() {
            return Ok(None);
        }
        match rescue(&self.waiting, session, folders) {
            Ok(rescued) => {
                self.waiting.clear();
                Ok(Some(rescued))
            }
            Err(error) => Err(self.not_kept(error.into())),
        }
    }

    fn not_kept(&self, why: Why) -> NotKept {
        NotKept {
            file: self.path.clone(),
            why,
            waiting: self.waiting.len(),
        }
    }

    fn mend(&self) -> Result<Mended, Why> {
        let mut file = locked(&self.path)?;
        let tail = tail::mend(&mut file, &self.path)?;
        Ok(Mended {
            set_aside: tail.set_aside,
        })
    }

    fn write(&self, lines: &[u8]) -> Result<(), Why> {
        let is_new = !self.path.exists();
        if let (true, Some(folder)) = (is_new, self.path.parent()) {
            fs::create_dir_all(folder)?;
        }
        let mut file = locked(&self.path)?;
        let tail = tail::mend(&mut file, &self.path)?;
        let written = file.write_all(lines).and_then(|()| file.sync_data());
        if let Err(error) = written {
            // Half a line must not stay: the whole of it will be written again.
            file.set_len(tail.length)?;
            return Err(error.into());
        }
        if is_new {
            flush_folder(&self.path);
        }
        Ok(())
    }
}

/// The file, open for appending and locked until it is closed.
pub(super) fn locked(path: &Path) -> Result<File, Why> {
    let start = Instant::now();
    loop {
        let file = open(path)?;
        match file.try_lock() {
            Ok(()) if is_at(&file, path) => return Ok(file),
            // Someone put another file in its place while we waited.
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => thread::sleep(Duration::from_millis(1)),
            // Some network disks know no locks; one write in append mode is still whole.
            Err(TryLockError::Error(error)) if error.kind() == ErrorKind::Unsupported => {
                return Ok(file);
            }
            Err(TryLockError::Error(error)) => return Err(error.into()),
        }
        if start.elapsed() > PATIENCE {
            return Err(Why::Busy);
        }
    }
}

fn open(path: &Path) -> io::Result<File> {
    let mut options = OpenOptions::new();
    options.read(true).append(true).create(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        // What someone gets wrong is nobody else's business.
        options.mode(0o600);
    }
    options.open(path)
}

/// Whether `path` still names this open file.
#[cfg(unix)]
fn is_at(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (file.metadata(), fs::metadata(path)) {
        (Ok(open), Ok(named)) => (open.dev(), open.ino()) == (named.dev(), named.ino()),
        _ => false,
    }
}

/// Elsewhere an open file cannot be replaced.
#[cfg(not(unix))]
fn is_at(_file: &File, _path: &Path) -> bool {
    true
}

/// Makes a new file's name last, where the system can. The answer itself is on disk, and
/// systems without this call keep names by themselves, so a failure changes nothing.
fn flush_folder(path: &Path) {
    let folder = path.parent().filter(|folder| *folder != Path::new(""));
    if let Ok(folder) = File::open(folder.unwrap_or(Path::new("."))) {
        let _ = folder.sync_all();
    }
}

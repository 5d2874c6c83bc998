//! Answers that the journal would not take, put into a file of their own at the end.

use std::fmt;
use std::fs::{File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

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
        let answers = if self.answers == 1 {
            "1 answer that the journal refused is".to_owned()
        } else {
            format!("{} answers that the journal refused are", self.answers)
        };
        let file = self.file.display().to_string();
        write!(
            f,
            "{answers} in `{}`; `plagal journal merge` takes that file in",
            file.escape_debug()
        )
    }
}

/// Writes `lines` to a new file in the first of `folders` that takes it.
///
/// # Errors
/// With what the last folder said, when none takes it.
pub(super) fn rescue(lines: &[String], session: &str, folders: &[PathBuf]) -> io::Result<Rescued> {
    let mut refused = io::Error::other("there is no folder to write to");
    for folder in folders {
        let path = folder.join(format!("plagal-unsaved-{session}.jsonl"));
        match write(&path, lines) {
            Ok(()) => {
                return Ok(Rescued {
                    file: path,
                    answers: lines.len(),
                });
            }
            Err(error) => refused = error,
        }
    }
    Err(refused)
}

fn write(path: &Path, lines: &[String]) -> io::Result<()> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.mode(0o600);
    }
    let mut file: File = options.open(path)?;
    let written = file
        .write_all(lines.concat().as_bytes())
        .and_then(|()| file.sync_all());
    written.inspect_err(|_| {
        // Half of it would look like all of it.
        let _ = std::fs::remove_file(path);
    })
}

//! Why an answer could not be kept.

use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

/// The journal refuses an answer. It stays in memory and the next append tries again.
#[derive(Debug)]
pub struct KeepError {
    /// The journal.
    pub file: PathBuf,
    /// What stood in the way.
    pub cause: WriteError,
    /// Answers that wait in memory, this one included.
    pub waiting: usize,
    /// What each rescue file said that was tried; empty if one took the answers.
    pub elsewhere: Vec<(PathBuf, WriteError)>,
}

/// Answers that are on no disk.
#[derive(Debug)]
pub struct Unsaved {
    /// What the journal and the rescue files said.
    pub error: KeepError,
    /// The answers as lines of a journal, each with its line feed.
    pub lines: Vec<String>,
}

/// What stood in the way of writing.
#[derive(Debug)]
pub enum WriteError {
    /// Another program held the file for longer than an answer may wait.
    Busy,
    /// The system said no: a full disk, a read-only one, a missing permission.
    System(io::Error),
}

impl From<io::Error> for WriteError {
    fn from(error: io::Error) -> Self {
        Self::System(error)
    }
}

impl fmt::Display for KeepError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let file = quoted(&self.file);
        match self.waiting {
            0 => write!(f, "cannot write {file}: {}", self.cause)?,
            1 => write!(f, "1 answer is not saved to {file}: {}", self.cause)?,
            n => write!(f, "{n} answers are not saved to {file}: {}", self.cause)?,
        }
        for (file, cause) in &self.elsewhere {
            write!(f, "; nor to {}: {cause}", quoted(file))?;
        }
        Ok(())
    }
}

pub(super) fn quoted(file: &Path) -> String {
    format!("`{}`", file.display().to_string().escape_debug())
}

impl fmt::Display for Unsaved {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.error.fmt(f)
    }
}

impl fmt::Display for WriteError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self::System(error) = self else {
            return f.write_str("another program is holding the file");
        };
        match error.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => {
                f.write_str("the disk is full")
            }
            io::ErrorKind::ReadOnlyFilesystem => f.write_str("the disk is read-only"),
            io::ErrorKind::PermissionDenied => f.write_str("no permission to write there"),
            _ => write!(f, "{error}"),
        }
    }
}

impl std::error::Error for KeepError {}

impl std::error::Error for Unsaved {}

//! Why an answer could not be kept.

use std::fmt;
use std::io;
use std::path::PathBuf;

/// An answer that is not on disk. It stays in memory and the next append tries again.
#[derive(Debug)]
pub struct NotKept {
    /// The journal.
    pub file: PathBuf,
    /// What stood in the way.
    pub why: Why,
    /// Answers that wait in memory, this one included.
    pub waiting: usize,
}

/// What stood in the way.
#[derive(Debug)]
pub enum Why {
    /// Another program held the file for longer than an answer may wait.
    Busy,
    /// The system said no: a full disk, a read-only one, a missing permission.
    System(io::Error),
}

impl From<io::Error> for Why {
    fn from(error: io::Error) -> Self {
        Self::System(error)
    }
}

impl fmt::Display for NotKept {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.waiting == 0 {
            let file = self.file.display().to_string();
            return write!(f, "cannot write `{}`: {}", file.escape_debug(), self.why);
        }
        let answers = if self.waiting == 1 {
            "1 answer is".to_owned()
        } else {
            format!("{} answers are", self.waiting)
        };
        write!(
            f,
            "{answers} not saved to `{}`: {}",
            self.file.display().to_string().escape_debug(),
            self.why
        )
    }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let System(error) = self else {
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

use Why::System;

impl std::error::Error for NotKept {}

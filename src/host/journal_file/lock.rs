//! One writer at a time.

use std::fs::{self, File, TryLockError};
use std::io::ErrorKind;
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

use super::disk::private;
use super::failure::WriteError;

/// How long a writer waits for another program to let go of the file.
pub(super) const PATIENCE: Duration = Duration::from_secs(2);

/// The file, made if it is missing, open for appending and locked until it is closed.
/// `path` is no link.
pub(super) fn locked(path: &Path) -> Result<File, WriteError> {
    let start = Instant::now();
    loop {
        let file = private().read(true).append(true).create(true).open(path)?;
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
            return Err(WriteError::Busy);
        }
    }
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

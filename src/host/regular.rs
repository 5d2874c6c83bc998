//! Opening files that somebody named: what is no regular file is refused, because reading a
//! pipe or a device may never end.

use std::fs::File;
use std::io;
use std::path::Path;

/// Opens a file for reading. Standard input, named as `-` or `/dev/stdin`, may be of any
/// sort: whoever names it ends it.
///
/// # Errors
/// If it cannot be opened, or is neither a regular file nor standard input.
pub fn open(path: &Path) -> io::Result<File> {
    if is_standard_input(path) {
        return File::open("/dev/stdin");
    }
    // Before it is opened: opening a pipe waits for its writer.
    let kind = std::fs::metadata(path)?.file_type();
    if kind.is_dir() {
        Err(io::Error::new(
            io::ErrorKind::IsADirectory,
            "it is a folder; expected a file",
        ))
    } else if kind.is_file() {
        File::open(path)
    } else {
        let what = "it is a pipe or a device; expected a regular file";
        Err(io::Error::new(io::ErrorKind::InvalidInput, what))
    }
}

/// Whether a path stands for standard input.
#[must_use]
pub fn is_standard_input(path: &Path) -> bool {
    path == Path::new("-") || path == Path::new("/dev/stdin")
}

//! Files that hold answers: private to their owner, made without following links, and named
//! on disk for good.

use std::fs::{self, File, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};

/// How many links are followed one after the other, as on Linux.
const LINKS: usize = 40;

/// The file that `path` leads to, there or not yet. What is then opened, replaced or put
/// beside it is that file and not a link to it.
pub(super) fn resolved(path: &Path) -> PathBuf {
    let mut path = path.to_owned();
    for _ in 0..LINKS {
        let Ok(target) = fs::read_link(&path) else {
            break;
        };
        path = folder_of(&path).join(target);
    }
    path
}

/// `path` with more at the end of its name.
pub(super) fn with_suffix(path: &Path, suffix: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(suffix);
    name.into()
}

/// Options that make a file for its owner alone, and open no link.
pub(super) fn private() -> OpenOptions {
    let mut options = OpenOptions::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        // What someone gets wrong is nobody else's business.
        options.mode(0o600).custom_flags(libc::O_NOFOLLOW);
    }
    options
}

/// Makes a file afresh. What a killed program left in its place goes; a link goes, not what
/// it leads to.
pub(super) fn create_anew(path: &Path) -> io::Result<File> {
    remove(path)?;
    private().write(true).create_new(true).open(path)
}

/// Removes a file that need not be there.
pub(super) fn remove(path: &Path) -> io::Result<()> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
        Ok(()) | Err(_) => Ok(()),
    }
}

/// Makes the folder of a file that is not there yet, and those above it, where they are
/// missing: for their owner alone, as the XDG Base Directory Specification 0.8 asks of the
/// base directories. All their names are on disk before the file is: nobody can tell later
/// which of them an attempt that failed has made.
pub(super) fn make_folder_of(path: &Path) -> io::Result<()> {
    if path.exists() {
        return Ok(());
    }
    let mut builder = fs::DirBuilder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt;
        builder.mode(0o700);
    }
    let folder = folder_of(path);
    match builder.recursive(true).create(folder) {
        // What is no folder there is told where the file is opened.
        Err(error) if error.kind() != io::ErrorKind::AlreadyExists => return Err(error),
        Ok(()) | Err(_) => {}
    }
    let above = folder.ancestors();
    above
        .filter(|folder| folder.parent().is_some())
        .try_for_each(flush_names)
}

/// Makes the names beside `path` last, its own among them.
///
/// # Errors
/// If the disk fails. A system that cannot do it keeps names by itself, or cannot be helped.
pub(super) fn flush_names(path: &Path) -> io::Result<()> {
    match File::open(folder_of(path)).and_then(|folder| folder.sync_all()) {
        Err(error) if !is_unable(&error) => Err(error),
        Ok(()) | Err(_) => Ok(()),
    }
}

/// Whether a folder cannot be flushed there, or not by us.
fn is_unable(error: &io::Error) -> bool {
    use io::ErrorKind::{InvalidInput, IsADirectory, PermissionDenied, Unsupported};
    let kinds = [InvalidInput, IsADirectory, PermissionDenied, Unsupported];
    #[cfg(unix)]
    if error.raw_os_error() == Some(libc::EBADF) {
        return true;
    }
    kinds.contains(&error.kind())
}

fn folder_of(path: &Path) -> &Path {
    let folder = path.parent().filter(|folder| *folder != Path::new(""));
    folder.unwrap_or(Path::new("."))
}

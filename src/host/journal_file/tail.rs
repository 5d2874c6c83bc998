//! The end of the file: a line that a crash cut short is set aside, so that the next one
//! starts afresh.

use std::fs::File;
#[cfg(unix)]
use std::fs::Permissions;
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use super::disk::{flush_names, private, remove, with_suffix};

use crate::journal::{JournalLine, ScoredEntry, parse};

/// How much of the end is looked at in one go, in bytes.
const STEP: u64 = 64 * 1024;

/// What was done to the end of the file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Tail {
    /// The length of the file afterwards, in bytes.
    pub(super) length: u64,
    /// Bytes of a torn line that were set aside.
    pub(super) set_aside: u64,
}

/// Where torn bytes are kept: beside the journal.
pub(super) fn aside(journal: &Path) -> PathBuf {
    with_suffix(journal, ".torn")
}

/// Makes the file end in a whole line. The caller holds the lock, so an end without a
/// line feed is a crash's, not another program's work in progress.
pub(super) fn mend(file: &mut File, journal: &Path) -> io::Result<Tail> {
    let length = file.seek(SeekFrom::End(0))?;
    let torn = unfinished(file, length)?;
    if torn.is_empty() {
        return Ok(Tail {
            length,
            set_aside: 0,
        });
    }
    if is_whole(&torn) {
        file.write_all(b"\n")?;
        return Ok(Tail {
            length: length + 1,
            set_aside: 0,
        });
    }
    keep_aside(&torn, &aside(journal))?;
    let set_aside = torn.len() as u64;
    file.set_len(length - set_aside)?;
    Ok(Tail {
        length: length - set_aside,
        set_aside,
    })
}

/// Adds the torn bytes to those that were set aside before.
fn keep_aside(torn: &[u8], path: &Path) -> io::Result<()> {
    if path.is_symlink() {
        remove(path)?;
    }
    let mut kept = private().create(true).append(true).open(path)?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // It may be of a program that let all read it.
        kept.set_permissions(Permissions::from_mode(0o600))?;
    }
    kept.write_all(torn)?;
    kept.write_all(b"\n")?;
    kept.sync_data()?;
    flush_names(path)
}

/// The bytes after the last line feed.
fn unfinished(file: &mut File, length: u64) -> io::Result<Vec<u8>> {
    let (mut start, mut step) = (length, 1);
    let mut block = Vec::new();
    while start > 0 {
        // Nearly always the file ends well, and one byte tells.
        let size = step.min(start);
        block.resize(usize::try_from(size).expect("a step fits in memory"), 0);
        file.seek(SeekFrom::Start(start - size))?;
        file.read_exact(&mut block)?;
        if let Some(at) = block.iter().rposition(|byte| *byte == b'\n') {
            start -= size - 1 - at as u64;
            break;
        }
        (start, step) = (start - size, STEP);
    }
    let mut torn = Vec::new();
    file.seek(SeekFrom::Start(start))?;
    file.take(length - start).read_to_end(&mut torn)?;
    Ok(torn)
}

/// Whether only the line feed is missing, as after a hand's edit.
fn is_whole(bytes: &[u8]) -> bool {
    std::str::from_utf8(bytes).is_ok_and(|text| {
        matches!(
            parse::<ScoredEntry>(text),
            Ok(JournalLine::Known(_) | JournalLine::Newer(_))
        )
    })
}

//! The end of the file: a line that a crash cut short is set aside, so that the next one
//! starts afresh.

use std::fs::{File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use crate::journal::{Glance, Line, parse};

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
    let mut name = journal.as_os_str().to_owned();
    name.push(".torn");
    name.into()
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
    let mut kept = OpenOptions::new()
        .create(true)
        .append(true)
        .open(aside(journal))?;
    kept.write_all(&torn)?;
    kept.write_all(b"\n")?;
    kept.sync_data()?;
    let set_aside = torn.len() as u64;
    file.set_len(length - set_aside)?;
    Ok(Tail {
        length: length - set_aside,
        set_aside,
    })
}

/// The bytes after the last line feed.
fn unfinished(file: &mut File, length: u64) -> io::Result<Vec<u8>> {
    let mut tail = Vec::new();
    let mut start = length;
    while start > 0 {
        let step = STEP.min(start);
        // Nearly always the file ends well, and one byte tells.
        let step = if start == length { 1 } else { step };
        start -= step;
        file.seek(SeekFrom::Start(start))?;
        let mut block = vec![0; usize::try_from(step).expect("a step fits in memory")];
        file.read_exact(&mut block)?;
        if let Some(at) = block.iter().rposition(|byte| *byte == b'\n') {
            block.drain(..=at);
            block.extend_from_slice(&tail);
            return Ok(block);
        }
        block.extend_from_slice(&tail);
        tail = block;
    }
    Ok(tail)
}

/// Whether only the line feed is missing, as after a hand's edit.
fn is_whole(bytes: &[u8]) -> bool {
    std::str::from_utf8(bytes)
        .is_ok_and(|text| matches!(parse::<Glance>(text), Ok(Line::Known(_) | Line::Newer(_))))
}

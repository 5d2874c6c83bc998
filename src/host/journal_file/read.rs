//! Reading the journal, a block of whole lines at a time.

use std::fs::{File, TryLockError};
use std::io::{self, Read as _};
use std::path::Path;
use std::thread;
use std::time::Duration;

use super::lock::PATIENCE;
use crate::host::regular;
use crate::journal::{Entry, JournalFault, JournalLine, parse};

/// How much is read in one go, in bytes.
const BLOCK: usize = 1 << 18;

/// What reading a journal found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Read<T> {
    /// The answered questions, in the order of the file.
    pub entries: Vec<T>,
    /// Lines of a newer program, kept in the file and not understood.
    pub newer: usize,
    /// Line numbers, from 1, that are no entries, and why. They stay in the file.
    pub faults: Vec<(usize, JournalFault)>,
}

/// All entries of the journal; none if there is no file yet.
///
/// # Errors
/// When the file is there and cannot be read.
pub fn read_entries(path: &Path) -> io::Result<Read<Entry>> {
    let mut read = Read {
        entries: Vec::new(),
        newer: 0,
        faults: Vec::new(),
    };
    scan(path, |number, line| match line.and_then(parse::<Entry>) {
        Ok(JournalLine::Known(entry)) => read.entries.push(entry),
        Ok(JournalLine::Newer(_)) => read.newer += 1,
        Err(fault) => read.faults.push((number, fault)),
    })?;
    Ok(read)
}

/// Hands over every line with its number, from 1, as the file stood at the beginning.
/// Empty lines are passed over.
///
/// # Errors
/// When the file is there and cannot be read.
pub fn scan(
    path: &Path,
    mut each: impl FnMut(usize, Result<&str, JournalFault>),
) -> io::Result<()> {
    let mut number = 0;
    blocks(path, |block| {
        for line in lines(&block) {
            number += 1;
            if line.iter().any(|byte| !byte.is_ascii_whitespace()) {
                each(
                    number,
                    std::str::from_utf8(line)
                        .map_err(|error| JournalFault::not_utf8(error.valid_up_to() + 1)),
                );
            }
        }
        block
    })
}

/// Hands over the file in blocks of whole lines, without the last line feed of each, and
/// is handed back a block that is no longer needed, to be filled again.
pub(super) fn blocks(path: &Path, mut each: impl FnMut(Vec<u8>) -> Vec<u8>) -> io::Result<()> {
    let file = match regular::open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
        Err(error) => return Err(error),
    };
    // Another program may be appending: what it adds now is for the next reading.
    let length = whole_length(&file)?;
    let mut file = file.take(length);
    let mut block = Vec::with_capacity(2 * BLOCK);
    let mut rest = Vec::new();
    loop {
        let before = block.len();
        let read = file.by_ref().take(BLOCK as u64).read_to_end(&mut block)?;
        if read == 0 {
            if !block.is_empty() {
                each(block);
            }
            return Ok(());
        }
        if let Some(at) = memchr::memrchr(b'\n', &block[before..]) {
            let end = before + at;
            rest.extend_from_slice(&block[end + 1..]);
            block.truncate(end);
            block = each(block);
            block.clear();
            block.append(&mut rest);
        }
    }
}

/// The lines of a block, the last one too when it is empty.
pub(super) fn lines(block: &[u8]) -> impl Iterator<Item = &[u8]> {
    let mut start = 0;
    memchr::memchr_iter(b'\n', block)
        .chain(std::iter::once(block.len()))
        .map(move |end| {
            let line = &block[start..end];
            start = end + 1;
            line
        })
}

/// How long the file is between two writes of other programs; without a bound where it is
/// standard input that comes through a pipe, which has no length to tell.
fn whole_length(file: &File) -> io::Result<u64> {
    if !file.metadata()?.is_file() {
        return Ok(u64::MAX);
    }
    for _ in 0..PATIENCE.as_millis() {
        match file.try_lock_shared() {
            Ok(()) => {
                let length = file.metadata()?.len();
                file.unlock()?;
                return Ok(length);
            }
            Err(TryLockError::WouldBlock) => thread::sleep(Duration::from_millis(1)),
            // A disk without locks: half a line of another program may show as a fault.
            Err(TryLockError::Error(_)) => break,
        }
    }
    Ok(file.metadata()?.len())
}

//! Pouring one journal into another: answers kept elsewhere, or made on another machine.

use std::collections::HashSet;
use std::fs::{self, File};
use std::hash::{BuildHasher, RandomState};
use std::io::{self, BufRead, BufReader, Write};
use std::path::Path;

use serde_json::Value;

use super::disk::{flush_names, make_folder_of, resolved};
use super::failure::WriteError;
use super::forget;
use super::lock::locked;
use super::read::scan;
use super::tail;
use crate::host::regular::is_standard_input;
use crate::journal::{BYTE_ORDER_MARK, Entry, JournalLine, parse, print};

/// What was poured in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Merged {
    /// Answers that are new to the journal.
    pub added: usize,
    /// Answers that it had already.
    pub known: usize,
    /// Lines that are no answers; they are left where they are.
    pub passed_over: usize,
}

/// Why nothing was poured in.
#[derive(Debug)]
pub enum MergeError {
    /// The other journal cannot be read.
    From(io::Error),
    /// This one cannot be written.
    Into(WriteError),
}

impl From<WriteError> for MergeError {
    fn from(cause: WriteError) -> Self {
        Self::Into(cause)
    }
}

impl From<io::Error> for MergeError {
    fn from(error: io::Error) -> Self {
        Self::Into(error.into())
    }
}

/// Tells answers apart by all that is understood of them: older programs gave the same id
/// to several answers of one sitting.
#[derive(Default)]
struct Answers {
    hashers: [RandomState; 2],
    /// 128 bits each, with keys of chance: among a million answers, two that differ are
    /// taken for one with a chance below 1 in 10^26.
    known: HashSet<[u64; 2]>,
}

impl Answers {
    /// Takes in the answer of a line, and says whether it is new; nothing if the line is no
    /// answer.
    fn take(&mut self, line: &str) -> Option<bool> {
        let line = line.trim_start_matches(BYTE_ORDER_MARK);
        let hash = match parse::<Entry>(line) {
            Ok(JournalLine::Known(entry)) if !entry.slots.is_empty() => self.hash(&print(&entry)),
            Ok(JournalLine::Newer(_)) => {
                let newer: Value = serde_json::from_str(line).ok()?;
                newer.get("id")?.as_str()?;
                self.hash(&newer)
            }
            Ok(JournalLine::Known(_)) | Err(_) => return None,
        };
        Some(self.known.insert(hash))
    }

    fn hash(&self, answer: &impl std::hash::Hash) -> [u64; 2] {
        self.hashers
            .each_ref()
            .map(|hasher| hasher.hash_one(answer))
    }
}

/// Adds the answers of `from` that the journal has not got, as they stand and in their
/// order, with one write. Newer programs' answers come along. Whatever is merged into
/// whatever, in any order and however often, the same answers are there in the end.
///
/// # Errors
/// When `from` cannot be read or the journal cannot be written; nothing is added then.
pub fn merge(journal: &Path, from: &Path) -> Result<Merged, MergeError> {
    // A missing journal is empty, but a missing gift is a mistake.
    let gift = match fs::canonicalize(from) {
        Ok(gift) => Some(gift),
        // A file that is redirected in has a path, a pipe has none.
        Err(_) if is_standard_input(from) => fs::canonicalize("/dev/stdin").ok(),
        Err(error) => return Err(MergeError::From(error)),
    };
    let journal = &resolved(journal);
    if gift.is_some_and(|gift| fs::canonicalize(journal).is_ok_and(|journal| journal == gift)) {
        return Err(MergeError::From(io::Error::other(
            "it is the journal itself",
        )));
    }
    make_folder_of(journal)?;
    let mut file = locked(journal)?;
    forget::clear(journal)?;
    let tail = tail::mend(&mut file, journal)?;
    let mut answers = Answers::default();
    // Not by `scan`, which waits for the lock that is held here.
    for line in BufReader::new(File::open(journal)?).split(b'\n') {
        if let Ok(line) = std::str::from_utf8(&line?) {
            answers.take(line);
        }
    }
    let mut merged = Merged::default();
    let mut added = String::new();
    scan(from, |_, line| {
        match line.ok().map(|line| (line, answers.take(line))) {
            Some((line, Some(true))) => {
                merged.added += 1;
                added += line.trim_start_matches(BYTE_ORDER_MARK).trim_end();
                added.push('\n');
            }
            Some((_, Some(false))) => merged.known += 1,
            Some((_, None)) | None => merged.passed_over += 1,
        }
    })
    .map_err(MergeError::From)?;
    let written = file
        .write_all(added.as_bytes())
        .and_then(|()| file.sync_data())
        .and_then(|()| flush_names(journal));
    if let Err(error) = written {
        // What stays for all that is whole or set aside, and known when it comes again.
        let _ = file.set_len(tail.length);
        return Err(error.into());
    }
    Ok(merged)
}

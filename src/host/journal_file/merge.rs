//! Pouring one journal into another: answers kept elsewhere, or made on another machine.

use std::collections::HashSet;
use std::fs::{self, File};
use std::io::{self, BufRead, BufReader, Write};
use std::path::Path;

use serde::Deserialize;

use super::append::locked;
use super::failure::Why;
use super::read::scan;
use super::tail;

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
pub enum NotMerged {
    /// The other journal cannot be read.
    From(io::Error),
    /// This one cannot be written.
    Into(Why),
}

impl From<Why> for NotMerged {
    fn from(why: Why) -> Self {
        Self::Into(why)
    }
}

impl From<io::Error> for NotMerged {
    fn from(error: io::Error) -> Self {
        Self::Into(error.into())
    }
}

/// All that tells one answer from another, in this format and in newer ones. A line
/// without a version is no answer.
#[derive(Deserialize)]
struct Head {
    #[serde(rename = "version")]
    _version: u32,
    id: String,
}

fn id(line: &str) -> Option<String> {
    serde_json::from_str(line).ok().map(|head: Head| head.id)
}

/// Adds the answers of `from` that the journal has not got, as they stand and in their
/// order, with one write. Newer programs' answers come along.
///
/// # Errors
/// When `from` cannot be read or the journal cannot be written; nothing is added then.
pub fn merge(journal: &Path, from: &Path) -> Result<Merged, NotMerged> {
    // A missing journal is empty, but a missing gift is a mistake.
    let gift = fs::canonicalize(from).map_err(NotMerged::From)?;
    if fs::canonicalize(journal).is_ok_and(|journal| journal == gift) {
        return Err(NotMerged::From(io::Error::other(
            "it is the journal itself",
        )));
    }
    if let Some(folder) = journal.parent() {
        fs::create_dir_all(folder)?;
    }
    let mut file = locked(journal)?;
    let tail = tail::mend(&mut file, journal)?;
    let mut ids = HashSet::new();
    // Not by `scan`, which waits for the lock that is held here.
    for line in BufReader::new(File::open(journal)?).split(b'\n') {
        ids.extend(std::str::from_utf8(&line?).ok().and_then(id));
    }
    let mut merged = Merged::default();
    let mut added = String::new();
    scan(from, |_, line| {
        let Some((line, id)) = line.ok().and_then(|line| Some((line, id(line)?))) else {
            merged.passed_over += 1;
            return;
        };
        if ids.insert(id) {
            merged.added += 1;
            added += line.trim_end();
            added.push('\n');
        } else {
            merged.known += 1;
        }
    })
    .map_err(NotMerged::From)?;
    let written = file
        .write_all(added.as_bytes())
        .and_then(|()| file.sync_data());
    if let Err(error) = written {
        file.set_len(tail.length)?;
        return Err(error.into());
    }
    Ok(merged)
}

//! An entry to a line and back.

use serde::Deserialize;

use super::{Entry, JournalFault, ReportedEntry, ScoredEntry, printed};

/// The format that this program writes. Raise it only when an older program would
/// misread the line; a new field that an old program may ignore needs no new format.
pub const FORMAT: u32 = 1;

/// What can be read from a line: data that names the format it was written in.
pub trait Versioned<'a>: Deserialize<'a> {
    /// The format that the line says it is written in.
    fn version(&self) -> u32;

    /// A quicker way to read the line, for those that have one; it may fail on any line.
    fn quickly(_line: &'a str) -> Option<Self> {
        None
    }
}

impl Versioned<'_> for Entry {
    fn version(&self) -> u32 {
        self.version
    }
}

impl<'a> Versioned<'a> for ReportedEntry<'a> {
    fn version(&self) -> u32 {
        self.version
    }
}

impl<'a> Versioned<'a> for ScoredEntry<'a> {
    fn version(&self) -> u32 {
        self.version
    }

    fn quickly(line: &'a str) -> Option<Self> {
        printed::scored(line)
    }
}

/// What a line turned out to be.
#[derive(Clone, Debug, PartialEq)]
pub enum JournalLine<T> {
    /// Of a format that this program reads.
    Known(T),
    /// Written by a newer program: kept and counted, not understood.
    Newer(u32),
}

#[derive(Deserialize)]
struct Head {
    version: u32,
}

/// What some editors put before the first line of a file; it belongs to no line.
pub const BYTE_ORDER_MARK: char = '\u{feff}';

/// Reads one line (without its line feed) as an [`Entry`] or a part of one.
///
/// # Errors
/// When the line is not a JSON object with the fields of a format up to [`FORMAT`].
pub fn parse<'a, T: Versioned<'a>>(line: &'a str) -> Result<JournalLine<T>, JournalFault> {
    let line = line.trim_start_matches(BYTE_ORDER_MARK);
    match T::quickly(line).map_or_else(|| serde_json::from_str(line), Ok) {
        Ok(known) if known.version() <= FORMAT => Ok(JournalLine::Known(known)),
        Ok(newer) => Ok(JournalLine::Newer(newer.version())),
        Err(error) => match serde_json::from_str::<Head>(line) {
            Ok(head) if head.version > FORMAT => Ok(JournalLine::Newer(head.version)),
            Ok(_) | Err(_) => Err(JournalFault::from_json(&error)),
        },
    }
}

/// The entry as one line, with its line feed.
#[must_use]
pub fn print(entry: &Entry) -> String {
    let mut line = serde_json::to_string(entry).expect("an entry is plain data with text keys");
    line.push('\n');
    line
}

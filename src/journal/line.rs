//! An entry to a line and back.

use serde::Deserialize;

use super::{Entry, Glance, LineFault};

/// The format that this program writes. Raise it only when an older program would
/// misread the line; a new field that an old program may ignore needs no new format.
pub const FORMAT: u32 = 1;

/// Data that names the format it was written in.
pub trait Versioned {
    fn version(&self) -> u32;
}

impl Versioned for Entry {
    fn version(&self) -> u32 {
        self.version
    }
}

impl Versioned for Glance<'_> {
    fn version(&self) -> u32 {
        self.version
    }
}

/// What a line turned out to be.
#[derive(Clone, Debug, PartialEq)]
pub enum Line<T> {
    Known(T),
    /// Written by a newer program: kept and counted, not understood.
    Newer(u32),
}

#[derive(Deserialize)]
struct Head {
    version: u32,
}

/// Reads one line (without its line feed) as an [`Entry`] or a [`Glance`].
///
/// # Errors
/// When the line is not a JSON object with the fields of a format up to [`FORMAT`].
pub fn parse<'a, T>(line: &'a str) -> Result<Line<T>, LineFault>
where
    T: Deserialize<'a> + Versioned,
{
    match serde_json::from_str::<T>(line) {
        Ok(known) if known.version() <= FORMAT => Ok(Line::Known(known)),
        Ok(newer) => Ok(Line::Newer(newer.version())),
        Err(error) => match serde_json::from_str::<Head>(line) {
            Ok(head) if head.version > FORMAT => Ok(Line::Newer(head.version)),
            Ok(_) | Err(_) => Err(LineFault::from_json(&error)),
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

//! The line, key and meter that several commands take.

use clap::Args;

use super::context::Context;
use super::failure::{BadText, Failure};
use crate::theory::{BareSix, Chord, Key, Line, LineError, LineFault, Meter, Numeral};

#[derive(Debug, Args)]
pub(super) struct LineArguments {
    /// Numerals, with `|` between bars and `%` for a bar again; without `|` each chord is
    /// a bar
    #[arg(value_name = "LINE")]
    line: String,
    /// The key, such as G, Bb, Gm or "F# minor"
    #[arg(long, value_name = "KEY")]
    key: String,
    /// The meter: 2/4, 3/4 or 4/4
    #[arg(long, value_name = "METER", default_value = "4/4")]
    meter: String,
}

/// A line that has notes in its key.
#[derive(Debug)]
pub(super) struct KeyedLine {
    pub line: Line,
    pub key: Key,
    /// One chord for each slot of the line.
    pub chords: Vec<Chord>,
}

impl LineArguments {
    pub(super) fn read(&self, context: &Context) -> Result<KeyedLine, Failure> {
        let key: Key = whole("KEY", &self.key)?;
        let meter: Meter = whole("METER", &self.meter)?;
        let six = context.bare_six;
        let line = Line::read(&self.line, meter, six).map_err(|error| self.refusal(&error))?;
        let chords = line.numerals().map(|numeral| Chord::new(numeral, key));
        let chords = chords
            .collect::<Result<Vec<Chord>, _>>()
            .map_err(|error| self.bad_line(self.remote_word(key, six), &error))?;
        Ok(KeyedLine { line, key, chords })
    }

    fn refusal(&self, error: &LineError) -> Failure {
        let range = match &error.fault {
            // A numeral's own error knows its place inside the word.
            LineFault::Numeral(inner) => {
                let start = error.at.start + inner.at.start;
                start..error.at.start + inner.at.end
            }
            LineFault::Empty
            | LineFault::TooLong
            | LineFault::NothingToRepeat
            | LineFault::FullBar => error.at.clone(),
        };
        self.bad_line(range, error)
    }

    fn bad_line(&self, range: std::ops::Range<usize>, message: &dyn std::fmt::Display) -> Failure {
        Failure::BadText(BadText::new("LINE", &self.line, range, message))
    }

    /// The bytes of the first numeral without notes in the key.
    fn remote_word(&self, key: Key, six: BareSix) -> std::ops::Range<usize> {
        let is_remote = |word: &str| {
            Numeral::read(word, six).is_ok_and(|numeral| Chord::new(&numeral, key).is_err())
        };
        let separators = |c: char| c.is_whitespace() || c == '|';
        let word = self.line.split(separators).find(|word| is_remote(word));
        word.map_or(0..self.line.len(), |word| {
            let start = word.as_ptr() as usize - self.line.as_ptr() as usize;
            start..start + word.len()
        })
    }
}

/// Reads an argument that is one thing; an error is about all of it.
pub(super) fn whole<T>(name: &str, text: &str) -> Result<T, Failure>
where
    T: std::str::FromStr<Err: std::fmt::Display>,
{
    text.parse()
        .map_err(|error| Failure::BadText(BadText::new(name, text, 0..text.len(), &error)))
}

//! The line, key and meter that several commands take.

use clap::Args;

use super::context::Context;
use super::failure::{BadText, Failure};
use crate::theory::{
    BareSix, Chord, Key, KeyError, Line, LineError, LineFault, Meter, NameError, Numeral,
};

#[derive(Debug, Args)]
pub(super) struct LineArguments {
    /// Numerals, with `|` between bars and `%` for a bar again; without `|` each chord is
    /// a bar
    #[arg(value_name = "LINE", required = true)]
    line: Option<String>,
    /// The key, such as G, Bb, Gm or "F# minor"
    #[arg(long, value_name = "KEY", required = true)]
    key: Option<String>,
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
        let key: Key = read_key(self.key.as_deref().unwrap_or_default())?;
        let meter: Meter = self.meter.parse().map_err(|error: NameError| {
            let bad = BadText::new("METER", &self.meter, 0..self.meter.len(), &error);
            Failure::BadText(bad.expected("2/4, 3/4 or 4/4"))
        })?;
        let six = context.bare_six;
        let line = Line::read(self.text(), meter, six).map_err(|error| self.refusal(&error))?;
        let chords = line.numerals().map(|numeral| Chord::new(numeral, key));
        let chords = chords.collect::<Result<Vec<Chord>, _>>().map_err(|error| {
            let word = self.remote_word(key, six);
            let bad = BadText::new("LINE", self.text(), word, &error);
            Failure::BadText(bad.expected("a chord nearer to the key"))
        })?;
        Ok(KeyedLine { line, key, chords })
    }

    /// The line as it was given; without one, which a command must not allow, nothing.
    fn text(&self) -> &str {
        self.line.as_deref().unwrap_or_default()
    }

    fn refusal(&self, error: &LineError) -> Failure {
        let bad = |range| BadText::new("LINE", self.text(), range, error);
        Failure::BadText(match &error.fault {
            // A numeral's own error knows its place inside the word.
            LineFault::Numeral(inner) => {
                let start = error.at.start;
                bad(start + inner.at.start..start + inner.at.end)
                    .expected(inner.expected.to_string())
            }
            LineFault::Empty => bad(error.at.clone()).expected("numerals and bar lines"),
            LineFault::TooLong => bad(error.at.clone()).expected("a shorter line"),
            LineFault::NothingToRepeat => bad(error.at.clone()).expected("a bar before it"),
            LineFault::FullBar => bad(error.at.clone()).expected("fewer chords in a bar"),
        })
    }

    /// The bytes of the first numeral without notes in the key.
    fn remote_word(&self, key: Key, six: BareSix) -> std::ops::Range<usize> {
        let is_remote = |word: &str| {
            Numeral::read(word, six).is_ok_and(|numeral| Chord::new(&numeral, key).is_err())
        };
        let separators = |c: char| c.is_whitespace() || c == '|';
        let word = self.text().split(separators).find(|word| is_remote(word));
        word.map_or(0..self.text().len(), |word| {
            let start = word.as_ptr() as usize - self.text().as_ptr() as usize;
            start..start + word.len()
        })
    }
}

/// Reads a key given as an argument.
pub(super) fn read_key(text: &str) -> Result<Key, Failure> {
    text.parse().map_err(|error: KeyError| {
        let bad = BadText::new("KEY", text, 0..text.len(), &error);
        Failure::BadText(bad.expected("a key such as G, Bb, F#, Gm or G minor"))
    })
}

//! Reads patterns.

use std::fmt;
use std::str::FromStr;

use super::{Pattern, Place, Wanted};
use crate::theory::{Mode, Numeral, NumeralError};

/// Why a text is no pattern, with the byte offset of the fault.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PatternError {
    /// The byte of the text that is at fault.
    pub offset: usize,
    /// What is wrong there.
    pub fault: PatternFault,
}

/// What is wrong with a pattern's text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PatternFault {
    /// A chord that is no numeral.
    Numeral(NumeralError),
    /// No chord stands between `[` and `]`, or more than one group does.
    NotOneOwnGroup,
    /// `(` without `)`, or an `or` outside them.
    Choice,
    /// `start` not first or `end` not last.
    Anchor,
    /// It holds more chords, or more ways to read it, than a pattern may.
    TooLong,
}

impl fmt::Display for PatternError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.fault {
            PatternFault::Numeral(error) => error.fmt(f),
            PatternFault::NotOneOwnGroup => {
                write!(
                    f,
                    "expected the device's own chords in one pair of `[` and `]`"
                )
            }
            PatternFault::Choice => write!(f, "expected choices in the form `(IV or ii7)`"),
            PatternFault::Anchor => write!(f, "expected `start` first or `end` last"),
            PatternFault::TooLong => write!(f, "expected at most {MOST_PLACES} chords"),
        }
    }
}

impl std::error::Error for PatternError {}

/// Bounds the number of expansions.
const MOST_PLACES: usize = 16;

impl FromStr for Pattern {
    type Err = PatternError;

    fn from_str(text: &str) -> Result<Self, PatternError> {
        Parser { text, at: 0 }.pattern()
    }
}

struct Parser<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Parser<'a> {
    fn refuse(&self, fault: PatternFault) -> PatternError {
        PatternError {
            offset: self.at,
            fault,
        }
    }

    fn skip_spaces(&mut self) {
        let rest = &self.text[self.at..];
        self.at += rest.len() - rest.trim_start().len();
    }

    fn take(&mut self, sign: &str) -> bool {
        let found = self.text[self.at..].starts_with(sign);
        self.at += if found { sign.len() } else { 0 };
        found
    }

    fn take_word(&mut self, word: &str) -> bool {
        let rest = &self.text[self.at..];
        let found = rest.split_whitespace().next() == Some(word) && rest.starts_with(word);
        self.at += if found { word.len() } else { 0 };
        found
    }

    fn pattern(&mut self) -> Result<Pattern, PatternError> {
        let mut pattern = Pattern {
            mode: None,
            at_start: false,
            at_end: false,
            places: Vec::new(),
        };
        let (mut groups, mut inside) = (0, false);
        self.skip_spaces();
        pattern.mode = [Mode::Major, Mode::Minor]
            .into_iter()
            .find(|mode| self.take(&format!("{mode}:")));
        self.skip_spaces();
        pattern.at_start = self.take_word("start");
        loop {
            self.skip_spaces();
            if self.at == self.text.len() {
                break;
            }
            if self.take_word("end") {
                pattern.at_end = true;
                self.skip_spaces();
                if self.at < self.text.len() {
                    return Err(self.refuse(PatternFault::Anchor));
                }
                break;
            }
            if self.take("[") {
                groups += 1;
                if inside {
                    return Err(self.refuse(PatternFault::NotOneOwnGroup));
                }
                inside = true;
                self.skip_spaces();
            }
            let choices = self.choices()?;
            let optional = self.take("?");
            pattern.places.push(Place {
                choices,
                optional,
                own: inside,
            });
            self.skip_spaces();
            if self.take("]") {
                if !inside {
                    return Err(self.refuse(PatternFault::NotOneOwnGroup));
                }
                inside = false;
            }
            if pattern.places.len() > MOST_PLACES {
                return Err(self.refuse(PatternFault::TooLong));
            }
        }
        if inside || groups != 1 {
            return Err(self.refuse(PatternFault::NotOneOwnGroup));
        }
        Ok(pattern)
    }

    fn choices(&mut self) -> Result<Vec<Wanted>, PatternError> {
        if !self.take("(") {
            return Ok(vec![self.wanted()?]);
        }
        let mut choices = Vec::new();
        loop {
            self.skip_spaces();
            choices.push(self.wanted()?);
            self.skip_spaces();
            if self.take(")") {
                return Ok(choices);
            }
            if !self.take_word("or") {
                return Err(self.refuse(PatternFault::Choice));
            }
        }
    }

    fn wanted(&mut self) -> Result<Wanted, PatternError> {
        let exact = self.take("=");
        let rest: &'a str = &self.text[self.at..];
        let length = rest
            .find(|c: char| c.is_whitespace() || "?]()[".contains(c))
            .unwrap_or(rest.len());
        let mut numeral: Numeral =
            rest[..length]
                .parse()
                .map_err(|error: NumeralError| PatternError {
                    offset: self.at + error.at.start,
                    fault: PatternFault::Numeral(error),
                })?;
        self.at += length;
        let root_position = numeral.bass == Some(numeral.root());
        if root_position {
            numeral.bass = None;
        }
        Ok(Wanted {
            numeral,
            exact,
            root_position,
        })
    }
}

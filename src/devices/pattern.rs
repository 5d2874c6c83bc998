//! Patterns: a device's chords and the chords it stands between.
//!
//! `IV? [iv] (I or iii7)` reads: perhaps IV, then the device's own chord iv, then I or
//! iii. Chords match by root and kind, whatever their extensions; `=imaj7` matches that
//! quality alone; a written bass degree must sound. `start` and `end` hold the pattern to
//! the first or last chord of the line.

use std::fmt;
use std::str::FromStr;

use super::shape::Shape;
use crate::theory::{Numeral, NumeralError};

/// One chord that a pattern asks for.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Wanted {
    pub numeral: Numeral,
    /// Whether the quality must be the written one, extensions included.
    pub exact: bool,
}

impl Wanted {
    /// Whether a chord of a line is what is wanted.
    #[must_use]
    pub fn accepts(&self, chord: &Numeral) -> bool {
        let fits = if self.exact {
            self.numeral.root() == chord.root() && self.numeral.quality() == chord.quality()
        } else {
            Shape::acting(&self.numeral) == Shape::acting(chord)
        };
        fits && self
            .numeral
            .bass
            .is_none_or(|bass| chord.sounding_bass() == bass)
    }
}

impl fmt::Display for Wanted {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", if self.exact { "=" } else { "" }, self.numeral)
    }
}

/// One place of a pattern.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
struct Place {
    choices: Vec<Wanted>,
    optional: bool,
    own: bool,
}

/// The shape of a device in a line.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Pattern {
    at_start: bool,
    at_end: bool,
    places: Vec<Place>,
}

/// One way to spell a pattern out: context before, the device's own chords, context after.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Expansion {
    pub at_start: bool,
    pub at_end: bool,
    pub before: Vec<Wanted>,
    pub own: Vec<Wanted>,
    pub after: Vec<Wanted>,
}

impl Expansion {
    /// All chords in order.
    pub fn chords(&self) -> impl Iterator<Item = &Wanted> {
        self.before.iter().chain(&self.own).chain(&self.after)
    }

    /// How many chords there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.before.len() + self.own.len() + self.after.len()
    }

    /// Whether the expansion asks for no chord; a parsed pattern always asks for some.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Whether the chords of `line` from `from` on are this expansion.
    #[must_use]
    pub fn matches(&self, line: &[&Numeral], from: usize) -> bool {
        let end = from + self.len();
        end <= line.len()
            && (!self.at_start || from == 0)
            && (!self.at_end || end == line.len())
            && self
                .chords()
                .zip(&line[from..end])
                .all(|(wanted, chord)| wanted.accepts(chord))
    }
}

impl Pattern {
    /// Every way to spell the pattern out, in the order it is written.
    #[must_use]
    pub fn expansions(&self) -> Vec<Expansion> {
        let empty = Expansion {
            at_start: self.at_start,
            at_end: self.at_end,
            before: Vec::new(),
            own: Vec::new(),
            after: Vec::new(),
        };
        let first_own = self
            .places
            .iter()
            .position(|place| place.own)
            .unwrap_or_default();
        let mut all = vec![empty];
        for (index, place) in self.places.iter().enumerate() {
            let mut next = Vec::new();
            for expansion in &all {
                for choice in &place.choices {
                    let mut longer = expansion.clone();
                    let part = if place.own {
                        &mut longer.own
                    } else if index < first_own {
                        &mut longer.before
                    } else {
                        &mut longer.after
                    };
                    part.push(choice.clone());
                    next.push(longer);
                }
                next.extend(place.optional.then(|| expansion.clone()));
            }
            all = next;
        }
        all
    }
}

impl fmt::Display for Pattern {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut words: Vec<String> = Vec::new();
        words.extend(self.at_start.then(|| "start".to_owned()));
        for (index, place) in self.places.iter().enumerate() {
            let own_at = |at: Option<usize>| {
                at.and_then(|at| self.places.get(at))
                    .is_some_and(|place| place.own)
            };
            let choices: Vec<String> = place.choices.iter().map(ToString::to_string).collect();
            let mut word = match choices.as_slice() {
                [one] => one.clone(),
                _ => format!("({})", choices.join(" or ")),
            };
            word += if place.optional { "?" } else { "" };
            if place.own && !own_at(index.checked_sub(1)) {
                word.insert(0, '[');
            }
            if place.own && !own_at(Some(index + 1)) {
                word.push(']');
            }
            words.push(word);
        }
        words.extend(self.at_end.then(|| "end".to_owned()));
        f.write_str(&words.join(" "))
    }
}

/// Why a text is no pattern, with the byte offset of the fault.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PatternError {
    pub offset: usize,
    pub fault: PatternFault,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PatternFault {
    Numeral(NumeralError),
    /// No chord stands between `[` and `]`, or more than one group does.
    NotOneOwnGroup,
    /// `(` without `)`, or an `or` outside them.
    Choice,
    /// `start` not first or `end` not last.
    Anchor,
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
            at_start: false,
            at_end: false,
            places: Vec::new(),
        };
        let (mut groups, mut inside) = (0, false);
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
        let numeral = rest[..length]
            .parse()
            .map_err(|error: NumeralError| PatternError {
                offset: self.at + error.at.start,
                fault: PatternFault::Numeral(error),
            })?;
        self.at += length;
        Ok(Wanted { numeral, exact })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn patterns_print_as_they_parse() {
        for text in [
            "[ii7 V7 I]",
            "IV? [iv] (I or iii7)",
            "start [I vi7 (ii7 or IV) V7] I? end",
            "[=i =imaj7 =i7 =iadd6]",
            "(IV or ii7) [#ivo7] I/5",
        ] {
            let pattern: Pattern = text.parse().unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(pattern.to_string(), text);
        }
    }

    #[test]
    fn expansions_cover_every_choice() {
        let pattern: Pattern = "IV? [iv] (I or iii7)".parse().expect("a pattern");
        let all: Vec<String> = pattern
            .expansions()
            .iter()
            .map(|e| {
                e.chords()
                    .map(ToString::to_string)
                    .collect::<Vec<_>>()
                    .join(" ")
            })
            .collect();
        assert_eq!(all, ["IV iv I", "IV iv iii7", "iv I", "iv iii7"]);
    }

    #[test]
    fn a_broken_pattern_names_its_place() {
        for (text, offset) in [
            ("ii7 V7 I", 8),
            ("[ii7 V7", 7),
            ("[iq]", 2),
            ("(IV ii7) [iv]", 4),
            ("[I] end V", 8),
        ] {
            assert_eq!(
                text.parse::<Pattern>().map_err(|e| e.offset),
                Err(offset),
                "{text}"
            );
        }
    }

    #[test]
    fn chords_match_by_root_and_kind() {
        let accepts = |wanted: &str, chord: &str| {
            let pattern: Pattern = format!("[{wanted}]").parse().expect("a pattern");
            pattern.expansions()[0].own[0].accepts(&chord.parse().expect("a numeral"))
        };
        for (wanted, chord, fits) in [
            ("V7/ii", "VI7", true),
            ("V7/ii", "VI", true),
            ("V7/ii", "vi7", false),
            ("V7/IV", "I7", true),
            ("V7/IV", "V/IV", true),
            ("V7/IV", "I", false),
            ("iv", "iv7", true),
            ("iv", "ivadd6", true),
            ("I", "Imaj7", true),
            ("I/5", "I", false),
            ("I", "I/5", true),
            ("bVII7", "bVII", false),
            ("=imaj7", "i7", false),
            ("#ivo7", "viio7/V", true),
        ] {
            assert_eq!(accepts(wanted, chord), fits, "{wanted} against {chord}");
        }
    }
}

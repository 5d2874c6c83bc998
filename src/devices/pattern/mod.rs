//! Patterns: a device's chords and the chords it stands between.
//!
//! `IV? [iv] (I or iii7)` reads: perhaps IV, then the device's own chord iv, then I or
//! iii. Chords match by root and kind, whatever their extensions and spelling; `=imaj7`
//! matches that quality alone; a written bass degree must sound, and `I/1` is I in root
//! position. `start` and `end` hold the pattern to the first or last chord of the line;
//! `minor:` before it all holds it to one mode.

mod parse;
mod wanted;

use std::fmt;

pub use parse::{PatternError, PatternFault};
pub use wanted::Wanted;
pub(super) use wanted::bass_of;

use crate::theory::{Mode, Numeral};

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
    mode: Option<Mode>,
    at_start: bool,
    at_end: bool,
    places: Vec<Place>,
}

/// One way to spell a pattern out: context before, the device's own chords, context after.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Expansion {
    /// The one mode that it belongs to; none if it is at home in each of its device's.
    pub mode: Option<Mode>,
    /// Whether nothing may come before it in the line.
    pub at_start: bool,
    /// Whether nothing may come after it in the line.
    pub at_end: bool,
    /// The context before the device's own chords.
    pub before: Vec<Wanted>,
    /// The device's own chords.
    pub own: Vec<Wanted>,
    /// The context after them.
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

    /// Whether it may stand in a line of this mode.
    #[must_use]
    pub fn suits(&self, mode: Mode) -> bool {
        self.mode.is_none_or(|own| own == mode)
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
            mode: self.mode,
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
        words.extend(self.mode.map(|mode| format!("{mode}:")));
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
            "minor: iv? [V7 i/1] end",
            "[V7/V/2] V7/5",
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
            ("minor: [i", 9),
            ("minor: [q]", 8),
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
            ("biiio7", "#iio7", true),
            ("bV7", "#IV7", true),
            ("I/1", "I", true),
            ("I/1", "Iadd6", true),
            ("I/1", "I/3", false),
            ("i/b3", "i/3", true),
            ("i/b3", "i", false),
        ] {
            assert_eq!(accepts(wanted, chord), fits, "{wanted} against {chord}");
        }
    }
}

//! The keys of an exercise: single ones, and the everyday ones of a mode.

use crate::document::{Faults, Mismatch, Problem, Value, near, one_or_list, parsed, placed, shown};
use crate::theory::{Key, KeyError, Mode};

const EXPECTED: &str =
    "a key such as `G`, `Bb`, `F#` or `Gm`, or `any major`, `any minor` or `any`";

/// As a file writes them.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Written {
    One(Key),
    /// All everyday keys of a mode, or of both.
    Any(Option<Mode>),
}

impl Written {
    fn keys(self) -> Vec<Key> {
        match self {
            Self::One(key) => vec![key],
            Self::Any(mode) => Key::everyday()
                .filter(|key| mode.is_none_or(|mode| key.mode() == mode))
                .collect(),
        }
    }

    fn read(text: &str) -> Result<Self, Mismatch> {
        match text {
            "any" => Ok(Self::Any(None)),
            "any major" => Ok(Self::Any(Some(Mode::Major))),
            "any minor" => Ok(Self::Any(Some(Mode::Minor))),
            _ => match text.parse() {
                Ok(key) => Ok(Self::One(key)),
                Err(error @ KeyError::TooRemote(_)) => Err(error.into()),
                Err(KeyError::NotAKey(_)) => {
                    let words = ["any", "any major", "any minor"];
                    let guess = text.starts_with("any").then(|| near(text, words)).flatten();
                    let text = shown(text);
                    let message = format!("`{text}` is not a key; expected {EXPECTED}");
                    Err(Mismatch::new(message).near(guess.map(str::to_owned)))
                }
            },
        }
    }
}

/// Reads a key, `any`, `any major` or `any minor`, or a list of these without repeats.
pub(super) fn keys(value: &Value, faults: &mut Faults) -> Option<Vec<Key>> {
    let written = one_or_list(1..=32, placed(parsed(EXPECTED, Written::read)))(value, faults)?;
    let mut keys: Vec<Key> = Vec::new();
    for (index, entry) in written.iter().enumerate() {
        let before = keys.len();
        for key in entry.value.keys() {
            if !keys.contains(&key) {
                keys.push(key);
            }
        }
        // A plain repeat has been reported.
        if keys.len() == before && !written[..index].contains(entry) {
            let problem = "the keys before it hold it already";
            entry.spot.fault(Problem::wrong(problem), faults);
        }
    }
    Some(keys)
}

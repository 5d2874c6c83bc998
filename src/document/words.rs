//! Readers of text: free text, closed sets of words, and notations with their own parser.

use std::fmt::Display;
use std::ops::{Range, RangeInclusive};

use super::fault::{Faults, Problem};
use super::near::near;
use super::place::offset_in_literal;
use super::readers::counted;
use super::shown::is_unsafe;
use super::value::Value;

/// Reads text of a length within `length`, in characters, without control characters.
pub fn text(
    length: RangeInclusive<usize>,
) -> impl Fn(&Value, &mut Faults) -> Option<String> + Clone {
    move |value, faults| {
        let expected = || format!("text of {} characters", counted(&length));
        let Some(text) = value.as_text() else {
            return value.expected(expected(), faults);
        };
        if !length.contains(&text.chars().count()) {
            return value.expected(expected(), faults);
        }
        if text.contains(is_unsafe) {
            return value.expected("text without control or invisible characters", faults);
        }
        Some(text.to_owned())
    }
}

/// Reads a stable id: lower-case words of letters and digits joined by hyphens, at most 64
/// characters. `what` says what of, such as `an exercise's id`.
pub fn id(what: &str) -> impl Fn(&Value, &mut Faults) -> Option<String> + Clone {
    let is_word = |word: &str| {
        let is_part = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit();
        !word.is_empty() && word.bytes().all(is_part)
    };
    move |value, faults| match value.as_text() {
        Some(text) if text.len() <= 64 && text.split('-').all(is_word) => Some(text.to_owned()),
        _ => value.expected(format!("{what}: words of a to z joined by `-`"), faults),
    }
}

/// Reads one of a closed set of words, each with its meaning.
pub fn one_of<T: Clone>(words: &[(&str, T)]) -> impl Fn(&Value, &mut Faults) -> Option<T> + Clone {
    move |value, faults| {
        let text = value.as_text();
        if let Some((_, meaning)) = words.iter().find(|(word, _)| Some(*word) == text) {
            return Some(meaning.clone());
        }
        let names: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        unknown(value, alternatives(&names), names.iter().copied(), faults)
    }
}

fn alternatives(words: &[&str]) -> String {
    let names: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        Some((only, _)) => only.clone(),
        None => "nothing".to_owned(),
    }
}

/// As many known names as are told in a fault.
const TOLD: usize = 16;

/// Reads the name of something known: `what` says what, such as `a device`.
pub fn known<'k>(
    what: &'k str,
    names: &'k [&'k str],
) -> impl Fn(&Value, &mut Faults) -> Option<String> + Clone {
    move |value, faults| match value.as_text() {
        Some(text) if names.contains(&text) => Some(text.to_owned()),
        _ => unknown(
            value,
            if names.len() > TOLD || names.is_empty() {
                format!("the id of {what}")
            } else {
                format!("the id of {what}: {}", alternatives(names))
            },
            names.iter().copied(),
            faults,
        ),
    }
}

/// Reports a word that is none of `words`, or something that is no word at all.
fn unknown<'w, T>(
    value: &Value,
    expected: String,
    words: impl Iterator<Item = &'w str>,
    faults: &mut Faults,
) -> Option<T> {
    let Some(text) = value.as_text() else {
        return value.expected(expected, faults);
    };
    let problem = Problem::Unexpected {
        found: text.to_owned(),
        expected,
        near: near(text, words).map(str::to_owned),
    };
    value.fault(problem, faults)
}

/// What a notation's own parser says of a text it cannot read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mismatch {
    message: String,
    bytes: Option<Range<usize>>,
    near: Option<String>,
}

impl Mismatch {
    /// The message stands alone: what was found and what was expected.
    pub fn new(message: impl Display) -> Self {
        Self {
            message: message.to_string(),
            bytes: None,
            near: None,
        }
    }

    /// The bytes of the text that are wrong.
    #[must_use]
    pub fn at(self, bytes: Range<usize>) -> Self {
        Self {
            bytes: Some(bytes),
            ..self
        }
    }

    /// What was probably meant.
    #[must_use]
    pub fn near(self, guess: Option<String>) -> Self {
        Self {
            near: guess,
            ..self
        }
    }
}

impl<E: std::error::Error> From<E> for Mismatch {
    fn from(error: E) -> Self {
        Self::new(error)
    }
}

/// Reads text with a notation's own parser, such as `str::parse::<Key>`; `what` names the
/// notation where something else than text stands. An error that knows its bytes is
/// pointed at inside the string.
pub fn parsed<T, E: Into<Mismatch>>(
    what: &str,
    parser: impl Fn(&str) -> Result<T, E> + Clone,
) -> impl Fn(&Value, &mut Faults) -> Option<T> + Clone {
    move |value, faults| {
        let Some(text) = value.as_text() else {
            return value.expected(what, faults);
        };
        let mismatch: Mismatch = match parser(text) {
            Ok(parsed) => return Some(parsed),
            Err(error) => error.into(),
        };
        let literal = value.literal();
        let start = value.range().start;
        let range = match mismatch.bytes {
            None => value.range(),
            Some(bytes) => {
                let from = offset_in_literal(literal, bytes.start);
                let to = offset_in_literal(literal, bytes.end).max(from);
                start + from..start + to
            }
        };
        let problem = Problem::Wrong {
            message: mismatch.message,
            expected: None,
            near: mismatch.near,
        };
        faults.add(&range, value.path(), problem);
        None
    }
}

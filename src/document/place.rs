//! Places in a text.

use std::fmt;
use std::ops::Range;

/// A place in a text: line and column from 1, the column counted in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The line, counted from 1.
    pub line: usize,
    /// The column in characters, counted from 1.
    pub column: usize,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.line, self.column)
    }
}

impl Place {
    /// The place of the byte at `offset`, which lies on a character boundary.
    #[must_use]
    pub(super) fn of(text: &str, offset: usize) -> Self {
        let before = &text[..offset];
        let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
        Self {
            line: before.bytes().filter(|byte| *byte == b'\n').count() + 1,
            column: before[line_start..].chars().count() + 1,
        }
    }
}

/// Characters of `range` on its first line, at least one.
pub(super) fn width(text: &str, range: &Range<usize>) -> usize {
    let covered = &text[range.clone()];
    let line = covered.lines().next().unwrap_or("");
    line.chars().count().max(1)
}

/// Bytes from the start of a string literal, its quote included, to the character that
/// stands at byte `inside` of the string it means.
pub(super) fn offset_in_literal(literal: &str, inside: usize) -> usize {
    let mut decoded = 0;
    let mut position = 1;
    let mut rest = literal.get(1..).unwrap_or("");
    while decoded < inside {
        let (raw, meant) = match rest.as_bytes() {
            [] => break,
            [b'\\', b'u', ..] => escaped_character(rest),
            [b'\\', ..] => (2, 1),
            [..] => {
                let length = rest.chars().next().map_or(1, char::len_utf8);
                (length, length)
            }
        };
        decoded += meant;
        position += raw;
        rest = rest.get(raw..).unwrap_or("");
    }
    position.min(literal.len().saturating_sub(1))
}

/// Bytes of a `\u` escape, or of a pair of them, and of the character it means.
fn escaped_character(text: &str) -> (usize, usize) {
    let unit = |at: usize| {
        text.get(at..at + 4)
            .and_then(|digits| u32::from_str_radix(digits, 16).ok())
    };
    match unit(2) {
        Some(0xd800..=0xdbff) => (12, 4),
        Some(unit) => (6, char::from_u32(unit).map_or(1, char::len_utf8)),
        None => (2, 1),
    }
}

#[cfg(test)]
mod tests {
    use super::{Place, offset_in_literal};

    #[test]
    fn columns_count_characters_and_lines_newlines() {
        let text = "one\r\n♭VII \"x\"\nlast";
        for (needle, line, column) in [("one", 1, 1), ("\"x", 2, 6), ("last", 3, 1)] {
            let offset = text.find(needle).expect("it is there");
            assert_eq!(Place::of(text, offset), Place { line, column });
        }
    }

    #[test]
    fn an_offset_in_a_string_is_found_behind_its_escapes() {
        for (literal, inside, expected) in [
            (r#""abc""#, 0, 1),
            (r#""abc""#, 2, 3),
            (r#""abc""#, 3, 4),
            (r#""\"b""#, 1, 3),
            (r#""\u266dVII""#, 3, 7),
            (r#""\ud834\udd2bx""#, 4, 13),
            (r#""♭x""#, 3, 4),
            (r#""ab""#, 99, 3),
        ] {
            assert_eq!(offset_in_literal(literal, inside), expected, "{literal}");
        }
    }
}

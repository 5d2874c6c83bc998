//! From text to a tree of values: strict JSON, of a bounded size and depth.

use std::ops::Range;

use jsonc_parser::ast;
use jsonc_parser::errors::ParseErrorKind;
use jsonc_parser::{CollectOptions, ParseOptions, parse_to_ast};

use super::fault::{Faults, Problem};

/// The largest text that is read, in bytes.
pub const LARGEST_FILE: usize = 1_000_000;

/// How deep lists and objects may stand in one another.
const DEEPEST: usize = 32;

/// The bytes as text.
///
/// # Errors
///
/// One fault at the first byte that is not UTF-8, or at the start if there are too many.
pub fn utf8(bytes: &[u8]) -> Result<&str, Faults> {
    if bytes.len() > LARGEST_FILE {
        let mut faults = Faults::of("");
        too_large(&mut faults);
        return Err(faults);
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let valid = String::from_utf8_lossy(&bytes[..error.valid_up_to()]);
        let end = valid.len();
        let mut faults = Faults::of(&valid);
        let problem = Problem::Syntax {
            found: format!("0x{:02x}", bytes[error.valid_up_to()]),
            expected: "text in UTF-8",
        };
        faults.add(&(end..end), String::new(), problem);
        faults
    })
}

fn too_large(faults: &mut Faults) {
    let problem = Problem::Wrong {
        message: "it is too large".to_owned(),
        expected: Some(format!("at most {LARGEST_FILE} bytes")),
        near: None,
    };
    faults.add(&(0..0), String::new(), problem);
}

/// The tree of a text, or nothing after a fault.
pub(super) fn parse<'t>(text: &'t str, faults: &mut Faults) -> Option<ast::Value<'t>> {
    if text.len() > LARGEST_FILE {
        too_large(faults);
        return None;
    }
    let lexical = first_lexical_fault(text);
    let parsed = parse_to_ast(text, &CollectOptions::default(), &strict());
    let (range, expected) = match (lexical, parsed) {
        (None, Ok(parsed)) => match parsed.value {
            Some(value) => return Some(value),
            None => (text.len()..text.len(), "a JSON value"),
        },
        (Some(lexical), Ok(_)) => lexical,
        (lexical, Err(error)) => {
            let range = error.range();
            let unclosed = matches!(
                error.kind(),
                ParseErrorKind::UnterminatedArray | ParseErrorKind::UnterminatedObject
            );
            let start = if unclosed { text.len() } else { range.start };
            let range = start..range.end.max(start);
            let syntax = (range, wanted(error.kind()));
            match lexical {
                Some(lexical) if lexical.0.start <= syntax.0.start => lexical,
                _ => syntax,
            }
        }
    };
    let problem = Problem::Syntax {
        found: first_word(text, &range),
        expected,
    };
    faults.add(&range, String::new(), problem);
    None
}

/// The first fault that the parser of the syntax would let pass or report far from its
/// cause: a string that runs over its line, a foreign space, too deep a nesting.
fn first_lexical_fault(text: &str) -> Option<(Range<usize>, &'static str)> {
    let mut in_string = false;
    let mut escaped = false;
    let mut depth: usize = 0;
    for (at, character) in text.char_indices() {
        let here = at..at + character.len_utf8();
        match (in_string, character) {
            (true, '\n' | '\r') => return Some((at..at, "the closing `\"`")),
            (true, '\u{0}'..='\u{1f}') => return Some((here, "control characters as escapes")),
            (true, _) if escaped => escaped = false,
            (true, '\\') => escaped = true,
            (true, '"') => in_string = false,
            (true, _) => {}
            (false, '"') => in_string = true,
            (false, '[' | '{') => {
                depth += 1;
                if depth > DEEPEST {
                    return Some((here, "at most 32 lists and objects in one another"));
                }
            }
            (false, ']' | '}') => depth = depth.saturating_sub(1),
            (false, ' ' | '\t' | '\n' | '\r') => {}
            (false, other) if other.is_whitespace() => return Some((here, "an ordinary space")),
            (false, _) => {}
        }
    }
    None
}

/// What cannot stand there: the first word from the range on, or its first character.
fn first_word(text: &str, range: &Range<usize>) -> String {
    let stretch = if range.is_empty() && !text[range.start..].starts_with(['\n', '\r']) {
        text[range.start..].trim_start()
    } else {
        &text[range.start..]
    };
    let is_part = |character: &char| character.is_alphanumeric() || "-+._".contains(*character);
    let word: String = stretch.chars().take_while(is_part).collect();
    if word.is_empty() {
        stretch.chars().take(1).collect()
    } else {
        word
    }
}

fn strict() -> ParseOptions {
    ParseOptions {
        allow_comments: false,
        allow_loose_object_property_names: false,
        allow_trailing_commas: false,
        allow_missing_commas: false,
        allow_single_quoted_strings: false,
        allow_hexadecimal_numbers: false,
        allow_unary_plus_numbers: false,
        allow_bare_decimal_point_numbers: false,
        allow_non_finite_numbers: false,
        allow_extended_string_escapes: false,
    }
}

/// What the syntax asks for, in our words.
fn wanted(kind: &ParseErrorKind) -> &'static str {
    use jsonc_parser::ParseStringErrorKind as Text;
    match kind {
        ParseErrorKind::BareDecimalPointNumbersNotAllowed => "a digit on both sides of the point",
        ParseErrorKind::CommentsNotAllowed | ParseErrorKind::UnterminatedCommentBlock => {
            "no comments in a data file"
        }
        ParseErrorKind::ExpectedColonAfterObjectKey => "`:` after the field's name",
        ParseErrorKind::ExpectedObjectValue => "a value after the `:`",
        ParseErrorKind::ExpectedDigit
        | ParseErrorKind::ExpectedDigitFollowingNegativeSign
        | ParseErrorKind::ExpectedPlusMinusOrDigitInNumberLiteral
        | ParseErrorKind::HexadecimalNumbersNotAllowed
        | ParseErrorKind::NonFiniteNumbersNotAllowed
        | ParseErrorKind::UnaryPlusNumbersNotAllowed => "a number in decimal digits",
        ParseErrorKind::ExpectedStringObjectProperty | ParseErrorKind::UnexpectedTokenInObject => {
            "a field's name in double quotes, or `}`"
        }
        ParseErrorKind::ExpectedComma => "`,` before the next one",
        ParseErrorKind::MultipleRootJsonValues => "the end of the file",
        ParseErrorKind::SingleQuotedStringsNotAllowed => "double quotes around text",
        ParseErrorKind::TrailingCommasNotAllowed => "no comma after the last one",
        ParseErrorKind::UnexpectedCloseBrace
        | ParseErrorKind::UnexpectedCloseBracket
        | ParseErrorKind::UnexpectedColon
        | ParseErrorKind::UnexpectedComma
        | ParseErrorKind::UnexpectedToken => "a value",
        ParseErrorKind::UnexpectedWord => {
            "a value: text in double quotes, a number, `true`, `false`, `[` or `{`"
        }
        ParseErrorKind::UnterminatedArray => "`]`",
        ParseErrorKind::UnterminatedObject => "`}`",
        ParseErrorKind::NestingDepthExceeded => "at most 32 lists and objects in one another",
        ParseErrorKind::String(kind) => match kind {
            Text::InvalidEscapeInSingleQuoteString
            | Text::InvalidEscapeInDoubleQuoteString
            | Text::InvalidEscape => {
                "an escape of JSON: `\\\"`, `\\\\`, `\\/`, `\\n`, `\\t`, `\\u266d`"
            }
            Text::ExpectedFourHexDigits | Text::ExpectedTwoHexDigits => {
                "four hexadecimal digits after `\\u`"
            }
            Text::InvalidUnicodeEscapeSequence(_) => "the number of a character after `\\u`",
            Text::UnterminatedStringLiteral => "the closing `\"`",
        },
    }
}

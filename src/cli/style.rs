//! How output may look: colour, and signs beyond ASCII.

use std::fmt::Write;
use std::io::IsTerminal;

use crate::document::shown;
use crate::host::settings::Color;

/// The look of one output stream.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Style {
    pub color: bool,
    pub ascii: bool,
}

impl Style {
    pub(super) fn new(color: Color, ascii: bool, stream: &impl IsTerminal) -> Self {
        let color = match color {
            Color::Always => true,
            Color::Never => false,
            Color::Auto => {
                stream.is_terminal() && std::env::var_os("TERM").is_none_or(|term| term != "dumb")
            }
        };
        Self { color, ascii }
    }

    /// Text from outside, safe to print in this style.
    pub(super) fn safe(self, text: &str) -> String {
        let text = shown(text);
        if !self.ascii || text.is_ascii() {
            return text;
        }
        let mut out = String::new();
        for character in text.chars() {
            match character {
                '♭' => out.push('b'),
                '♯' => out.push('#'),
                '°' => out.push('o'),
                '…' => out.push_str("..."),
                character if character.is_ascii() => out.push(character),
                character => write!(out, "\\u{:04x}", u32::from(character))
                    .expect("writing to a string cannot fail"),
            }
        }
        out
    }

    /// The text in the colour of warnings.
    pub(super) fn alarm(self, text: &str) -> String {
        self.painted("1;31", text)
    }

    /// The text as a heading.
    pub(super) fn strong(self, text: &str) -> String {
        self.painted("1", text)
    }

    /// The text in the colour of things beside the point.
    pub(super) fn faint(self, text: &str) -> String {
        self.painted("2", text)
    }

    fn painted(self, code: &str, text: &str) -> String {
        if self.color {
            format!("\u{1b}[{code}m{text}\u{1b}[0m")
        } else {
            text.to_owned()
        }
    }
}

//! Text from files and arguments, made safe to print.

use std::fmt::Write;

/// The text with every control, line-breaking, direction-changing and invisible
/// character written as an escape, so that a terminal shows it and cannot obey it.
#[must_use]
pub fn shown(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '\n' => out.push_str("\\n"),
            '\r' => out.push_str("\\r"),
            '\t' => out.push_str("\\t"),
            character if is_unsafe(character) => {
                write!(out, "\\u{:04x}", u32::from(character))
                    .expect("writing to a string cannot fail");
            }
            character => out.push(character),
        }
    }
    out
}

/// C0 and C1 controls, the bidirectional controls of Unicode (UAX 9), line and paragraph
/// separators, and characters without width that could hide text. The zero-width joiners
/// stay: scripts and emoji need them.
pub(super) fn is_unsafe(character: char) -> bool {
    character.is_control()
        || matches!(
            character,
            '\u{ad}'
                | '\u{61c}'
                | '\u{180e}'
                | '\u{200b}'
                | '\u{200e}'..='\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}'
                | '\u{feff}'
                | '\u{fff9}'..='\u{fffb}'
                | '\u{e0000}'..='\u{e007f}'
        )
}

/// Whether a character cannot be seen, the joiners too: none of them may stand in a name.
#[must_use]
pub fn is_invisible(character: char) -> bool {
    is_unsafe(character) || matches!(character, '\u{200c}' | '\u{200d}' | '\u{fe00}'..='\u{fe0f}')
}

#[cfg(test)]
mod tests {
    use super::shown;

    #[test]
    fn controls_are_shown_and_never_obeyed() {
        for (raw, safe) in [
            ("plain ♭VII7 ♯iv°7", "plain ♭VII7 ♯iv°7"),
            ("\u{1b}[31mred\u{7}", "\\u001b[31mred\\u0007"),
            ("a\r\n\tb", "a\\r\\n\\tb"),
            ("\u{9b}2J\u{7f}", "\\u009b2J\\u007f"),
            ("abc\u{202e}cba\u{2066}", "abc\\u202ecba\\u2066"),
            ("\u{feff}x\u{200b}\u{2028}", "\\ufeffx\\u200b\\u2028"),
            ("\u{e0041}", "\\ue0041"),
        ] {
            assert_eq!(shown(raw), safe);
        }
    }
}

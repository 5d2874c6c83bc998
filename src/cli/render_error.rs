//! The one place where errors are drawn: the message, the line it is about, and a mark
//! under the characters that are wrong; or the same facts as JSON.

use std::ops::Range;

use serde_json::json;
use unicode_width::UnicodeWidthStr;

use super::style::Style;
use crate::document::Fault;

/// Columns of the source line that are shown at most.
const WIDEST: usize = 76;

/// One error, ready to be told.
#[derive(Debug)]
pub(super) struct Message {
    pub what: String,
    pub expected: Option<String>,
    pub excerpt: Option<Excerpt>,
}

/// The text that an error is about.
#[derive(Debug)]
pub(super) struct Excerpt {
    file: String,
    /// Line, column and width in characters, with the line's text.
    at: Option<(usize, usize, usize, String)>,
}

impl Excerpt {
    /// The file as a whole.
    pub(super) fn whole(file: &str) -> Self {
        Self {
            file: file.to_owned(),
            at: None,
        }
    }

    /// The place of a fault; the file as a whole if none of its text could be read.
    pub(super) fn of_fault(file: &str, text: &str, fault: &Fault) -> Self {
        if text.is_empty() {
            return Self::whole(file);
        }
        let line = text.lines().nth(fault.place.line - 1).unwrap_or("");
        Self {
            file: file.to_owned(),
            at: Some((
                fault.place.line,
                fault.place.column,
                fault.width,
                line.to_owned(),
            )),
        }
    }

    /// A range of bytes of a text that is no file.
    pub(super) fn of_bytes(name: &str, text: &str, range: &Range<usize>) -> Self {
        let start = text.floor_char_boundary(range.start);
        let end = text.ceil_char_boundary(range.end.max(start));
        let line_start = text[..start].rfind('\n').map_or(0, |newline| newline + 1);
        let line = text[..start].matches('\n').count() + 1;
        let column = text[line_start..start].chars().count() + 1;
        let marked = text[start..end].lines().next().unwrap_or("");
        let shown_line = text[line_start..].lines().next().unwrap_or("");
        Self {
            file: name.to_owned(),
            at: Some((
                line,
                column,
                marked.chars().count().max(1),
                shown_line.to_owned(),
            )),
        }
    }
}

impl Message {
    pub(super) fn plain(what: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            expected: None,
            excerpt: None,
        }
    }

    /// One line of JSON.
    pub(super) fn json(&self) -> String {
        let place = self.excerpt.as_ref().map(|excerpt| {
            let at = excerpt.at.as_ref();
            json!({
                "file": excerpt.file,
                "line": at.map(|at| at.0),
                "column": at.map(|at| at.1),
            })
        });
        let error = json!({
            "what": self.what,
            "where": place,
            "expected": self.expected,
        });
        format!("{}\n", json!({ "error": error }))
    }

    /// Lines for people, each ended.
    pub(super) fn rendered(&self, style: Style) -> String {
        let what = style.safe(&self.what);
        let Some(excerpt) = &self.excerpt else {
            return format!("{} {what}\n", style.alarm("plagal:"));
        };
        let file = style.safe(&excerpt.file);
        let Some((line, column, width, text)) = &excerpt.at else {
            return format!("{} {what}\n", style.alarm(&format!("{file}:")));
        };
        let place = style.alarm(&format!("{file}:{line}:{column}:"));
        let (shown, mark) = marked(text, *column, *width, style);
        let bar = style.faint(if style.ascii { "|" } else { "│" });
        let mark = style.alarm(&mark);
        format!("{place} {what}\n    {bar} {shown}\n    {bar} {mark}\n")
    }
}

/// The stretch of a line around the characters that are wrong, and the mark below them.
fn marked(line: &str, column: usize, width: usize, style: Style) -> (String, String) {
    let characters: Vec<char> = line.chars().collect();
    let start = (column - 1).min(characters.len());
    let end = (start + width).min(characters.len());
    // A long line is shown from a little before the place on.
    let from = if characters.len() > WIDEST {
        start.saturating_sub(WIDEST / 3)
    } else {
        0
    };
    let safe = |range: Range<usize>| -> String {
        let stretch: String = characters[range].iter().collect();
        let stretch = stretch.replace('\t', "  ");
        style.safe(stretch.trim_end_matches('\r'))
    };
    let to = characters.len().min(from + WIDEST);
    let before = safe(from..start);
    let inside = safe(start..end.min(to).max(start));
    let after = safe(end.min(to).max(start)..to);
    let sign = if style.ascii { "^" } else { "▔" };
    let mark = format!(
        "{}{}",
        " ".repeat(before.width()),
        sign.repeat(inside.width().max(1))
    );
    (format!("{before}{inside}{after}"), mark)
}

#[cfg(test)]
mod tests {
    use insta::assert_snapshot;

    use super::{Excerpt, Message, Style};
    use crate::document::{self, Faults, Object, Value, text, whole};

    const PLAIN: Style = Style {
        color: false,
        ascii: false,
    };
    const ASCII: Style = Style {
        color: false,
        ascii: true,
    };

    fn reader(value: &Value, faults: &mut Faults) -> Option<()> {
        let mut fields = Object::of(value, faults)?;
        fields.required("title", text(1..=9));
        fields.required("tempo", whole(30..=300));
        fields.finish();
        Some(())
    }

    fn rendered(text: &str, style: Style) -> String {
        let faults = document::read(text, reader).expect_err("it has faults");
        let messages = faults.iter().map(|fault| Message {
            what: fault.to_string(),
            expected: fault.problem.expected().map(str::to_owned),
            excerpt: Some(Excerpt::of_fault("mine.json", faults.text(), fault)),
        });
        messages.map(|message| message.rendered(style)).collect()
    }

    #[test]
    fn the_line_is_shown_with_a_mark_below() {
        let text = "{\n\t\"title\": \"Die Kürze ♭\",\r\n  \"tempos\": 400\n}";
        assert_snapshot!(rendered(text, PLAIN), @r#"
        mine.json:1:1: `tempo` is missing; expected a whole number from 30 to 300
            │ {
            │ ▔
        mine.json:2:11: `title` is `"Die Kürze ♭"`; expected text of 1 to 9 characters
            │   "title": "Die Kürze ♭",
            │            ▔▔▔▔▔▔▔▔▔▔▔▔▔
        mine.json:3:3: `tempos` is not a field here; did you mean `tempo`?
            │   "tempos": 400
            │   ▔▔▔▔▔▔▔▔
        "#);
        assert_snapshot!(rendered(text, ASCII), @r#"
        mine.json:1:1: `tempo` is missing; expected a whole number from 30 to 300
            | {
            | ^
        mine.json:2:11: `title` is `"Die K\u00fcrze b"`; expected text of 1 to 9 characters
            |   "title": "Die K\u00fcrze b",
            |            ^^^^^^^^^^^^^^^^^^
        mine.json:3:3: `tempos` is not a field here; did you mean `tempo`?
            |   "tempos": 400
            |   ^^^^^^^^
        "#);
    }

    #[test]
    fn a_long_line_is_cut_and_controls_are_shown() {
        let text = format!(
            "{{\"title\": \"{}\", \"tempo\": \u{1b}[2J}}",
            "long ".repeat(40)
        );
        assert_snapshot!(rendered(&text, PLAIN), @r#"
        mine.json:1:224: `\u001b` cannot stand here; expected a value
            │ ng long long ", "tempo": \u001b[2J}
            │                          ▔▔▔▔▔▔
        "#);
    }

    #[test]
    fn an_argument_is_shown_like_a_file() {
        let text = "IV | xx | I";
        let message = Message {
            what: "`xx` is no numeral".to_owned(),
            expected: Some("a numeral".to_owned()),
            excerpt: Some(Excerpt::of_bytes("LINE", text, &(5..7))),
        };
        assert_snapshot!(message.rendered(PLAIN), @"
        LINE:1:6: `xx` is no numeral
            │ IV | xx | I
            │      ▔▔
        ");
        assert_snapshot!(message.json(), @r#"{"error":{"expected":"a numeral","what":"`xx` is no numeral","where":{"column":6,"file":"LINE","line":1}}}"#);
        let red = Style {
            color: true,
            ascii: true,
        };
        assert_snapshot!(message.rendered(red).replace('\u{1b}', "ESC"), @"
        ESC[1;31mLINE:1:6:ESC[0m `xx` is no numeral
            ESC[2m|ESC[0m IV | xx | I
            ESC[2m|ESC[0m ESC[1;31m     ^^ESC[0m
        ");
    }
}

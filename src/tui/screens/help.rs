//! Every press, in one place.

use std::cell::Cell;

use ratatui::Frame;
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use crate::tui::app::App;
use crate::tui::parts::{self, Hint};
use crate::tui::press::Press;

/// Columns of a press.
const PRESS: usize = 11;

/// The help, over another screen.
#[derive(Default)]
pub(in crate::tui) struct Help {
    /// The first row that is shown; drawing keeps it within the rows.
    first: Cell<u16>,
}

const HINTS: [Hint; 2] = [("Up Down", "scroll"), ("any other key", "back")];

const PRESSES: [(&str, &str); 20] = [
    ("Space", "hear the line again"),
    ("c", "hear the chord that is asked"),
    (
        "_ : '",
        "hear the bass, the inner voices or the top voice alone",
    ),
    ("l", "repeat the chord and its neighbours, or let go"),
    (
        "{ }",
        "take one chord more into what repeats, before or after",
    ),
    ("<", "hear it slower, at the same pitch"),
    ("k", "hear the cadence that sets the key"),
    (
        "m",
        "after the mark: hear your answer in the line, or the other line",
    ),
    ("f", "after the mark: fade between your answer and the line"),
    ("1 2 3 ...", "choose one of the answers on offer"),
    ("letters", "type a numeral: V7/ii, iv, #ivo7, bVII7, I/5"),
    ("x", "mark a chord, where chords are the answer"),
    ("Enter", "give the answer; go on"),
    ("Left Right", "another chord of the line"),
    ("Up Down", "choose from a list; scroll"),
    ("PgUp PgDn", "the same, by ten"),
    ("p", "progress, from the list of exercises"),
    ("[ ]", "softer, louder"),
    ("Esc", "leave the drill; what was answered is kept"),
    ("Ctrl-C", "quit at once"),
];

impl Help {
    /// Whether the press scrolls; any other leads back.
    pub(in crate::tui) fn scrolls(&self, press: Press) -> bool {
        let first = self.first.get();
        match press {
            Press::Up => self.first.set(first.saturating_sub(1)),
            Press::Down => self.first.set(first.saturating_add(1)),
            _ => return false,
        }
        true
    }

    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let places = parts::places(frame.area(), &HINTS, None);
        let columns = usize::from(places.body.width).saturating_sub(PRESS + 2);
        let row = |(press, does): &(&'static str, &str)| {
            let lines = broken(does, columns).into_iter().enumerate();
            let lines = lines.map(|(at, text)| {
                let press = if at == 0 { *press } else { "" };
                Line::from(vec![
                    Span::styled(format!(" {press:<PRESS$} "), theme.press()),
                    Span::raw(text),
                ])
            });
            lines.collect::<Vec<_>>()
        };
        let lines: Vec<Line<'_>> = PRESSES.iter().flat_map(row).collect();
        let hidden = (lines.len() as u16).saturating_sub(places.body.height);
        self.first.set(self.first.get().min(hidden));
        let first = self.first.get();
        let left = parts::elsewhere(usize::from(first), usize::from(hidden - first));
        parts::head(frame, places.head, "Help", &left, theme);
        parts::foot(frame, places.foot, &HINTS, theme);
        frame.render_widget(Paragraph::new(lines).scroll((first, 0)), places.body);
    }
}

/// A text in lines of at most so many columns, broken at its spaces.
fn broken(text: &str, columns: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split(' ') {
        let last = lines.last_mut().expect("there is a line");
        if last.is_empty() {
            last.push_str(word);
        } else if last.chars().count() + 1 + word.chars().count() <= columns {
            last.push(' ');
            last.push_str(word);
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}

//! Every press, in one place.

use ratatui::Frame;
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use crate::tui::app::App;
use crate::tui::parts::{self, Hint};

/// The help, over another screen.
pub(in crate::tui) struct Help;

const HINTS: [Hint; 1] = [("any key", "back")];

const PRESSES: [(&str, &str); 19] = [
    ("Space", "hear the line again"),
    ("c", "hear the chord that is asked"),
    ("_", "hear the bass alone"),
    (":", "hear the inner voices alone"),
    ("'", "hear the top voice alone"),
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
    ("[ ]", "softer, louder"),
    ("Esc", "leave the drill; what was answered is kept"),
    ("Ctrl-C", "quit at once"),
];

impl Help {
    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let places = parts::places(frame.area(), &HINTS, None);
        parts::head(frame, places.head, "Help", "", theme);
        parts::foot(frame, places.foot, &HINTS, theme);
        let mut lines = vec![Line::default()];
        lines.extend(PRESSES.iter().map(|(press, does)| {
            Line::from(vec![
                Span::styled(format!(" {press:<12}"), theme.press()),
                Span::raw(*does),
            ])
        }));
        frame.render_widget(Paragraph::new(lines), places.body);
    }
}

//! The drill is over: how it went, and what to do next.

use ratatui::Frame;
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::Progress;
use super::around::{draw_message, message};
use crate::tui::app::{App, Screen};
use crate::tui::parts::{self, Hint};
use crate::tui::press::Press;

/// The last screen of a drill.
pub(in crate::tui) struct Over;

const HINTS: [Hint; 3] = [("Enter", "home"), ("p", "progress"), ("q", "quit")];

impl Over {
    pub(in crate::tui) fn press(self, press: Press, app: &mut App) -> Option<Screen> {
        match press {
            Press::Enter | Press::Escape | Press::Character(' ') => app.go_home(),
            Press::Character('p') => app.screen = Screen::Progress(Progress::default()),
            Press::Character('q') => {
                app.is_over = true;
                return Some(Screen::Over(self));
            }
            Press::Character(_)
            | Press::Up
            | Press::Down
            | Press::Left
            | Press::Right
            | Press::Backspace
            | Press::Interrupt => return Some(Screen::Over(self)),
        }
        None
    }

    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let places = parts::places(frame.area(), &HINTS, message(app).as_deref());
        parts::head(frame, places.head, "The drill is over", "", theme);
        parts::foot(frame, places.foot, &HINTS, theme);
        draw_message(app, frame, places.message);
        let Some(session) = app.practice.session() else {
            return;
        };
        let tally = session.tally();
        let mut lines = vec![Line::default()];
        if tally.answers == 0 {
            lines.push(Line::from("Nothing was answered this time."));
        } else {
            let (right, answers) = (tally.right, tally.answers);
            let summary = format!("{right} of {answers} chords named rightly.");
            lines.push(Line::from(Span::styled(summary, theme.strong())));
            let partly = tally.credit - f64::from(right);
            if partly > 0.0 {
                let text = format!("Near misses add {partly:.1} to that in the scorer's eyes.");
                lines.push(Line::from(text));
            }
            lines.push(Line::default());
            lines.push(Line::from(Span::styled(
                "What was missed comes back sooner. Rest your ears for a while.",
                theme.faint(),
            )));
        }
        frame.render_widget(Paragraph::new(lines), places.body);
    }
}

//! The drill is over: how it went, and what to do next.

use ratatui::Frame;
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::ProgressScreen;
use super::layout::{draw_status, status};
use crate::devices::DeviceId;
use crate::quiz::{Count, Tally};
use crate::tui::app::{App, Screen};
use crate::tui::parts::{self, Hint};
use crate::tui::press::Press;
use crate::tui::status_message::StatusMessage;

/// The last screen of a drill.
pub(in crate::tui) struct Over;

/// Columns of a device's name, and the most devices that are listed.
const NAME: usize = 38;
const ROWS: usize = 10;

const HINTS: [Hint; 3] = [("Enter", "home"), ("p", "progress"), ("q", "quit")];

impl Over {
    pub(in crate::tui) fn press(self, press: Press, app: &mut App) -> Option<Screen> {
        match press {
            Press::Enter | Press::Escape | Press::Character(' ') => app.go_home(),
            Press::Character('p') => app.screen = Screen::Progress(ProgressScreen::new(app)),
            Press::Character('q') => {
                app.is_over = true;
                return Some(Screen::Over(self));
            }
            Press::Character(_)
            | Press::Up
            | Press::Down
            | Press::PageUp
            | Press::PageDown
            | Press::Left
            | Press::Right
            | Press::Backspace
            | Press::Interrupt
            | Press::Suspend => return Some(Screen::Over(self)),
        }
        None
    }

    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let status = status(app);
        let places = parts::places(
            frame.area(),
            &HINTS,
            status.as_ref().map(StatusMessage::text),
        );
        parts::head(frame, places.head, "The drill is over", "", theme);
        parts::foot(frame, places.foot, &HINTS, theme);
        draw_status(app, frame, places.message);
        let Some(session) = app.practice.session() else {
            return;
        };
        let tally = session.tally();
        let mut lines = vec![Line::default()];
        if tally.answers == 0 {
            lines.push(Line::from("Nothing was answered this time."));
        } else {
            let (right, answers) = (tally.right, tally.answers);
            let summary = match answers {
                1 if right == 1 => "The one answer was right.".to_owned(),
                1 => "The one answer was not right.".to_owned(),
                _ => format!("{right} of {answers} answers right."),
            };
            lines.push(Line::from(Span::styled(summary, theme.strong())));
            let partly = tally.credit - f64::from(right);
            if partly > 0.0 {
                let text = format!("Near misses count as {partly:.1} more.");
                lines.push(Line::from(text));
            }
            lines.push(Line::default());
            lines.extend(missed(tally, app));
            let rest = Span::styled("Rest your ears for a while.", theme.faint());
            lines.push(Line::from(rest));
        }
        frame.render_widget(Paragraph::new(lines), places.body);
    }
}

/// The devices that were missed, and how often.
fn missed(tally: &Tally, app: &App) -> Vec<Line<'static>> {
    let missed = tally.missed();
    if missed.is_empty() {
        return Vec::new();
    }
    let catalogue = app.practice.catalogue();
    let row = |(id, count): &(&DeviceId, Count)| {
        let name = catalogue
            .get(id)
            .map_or(id.as_str(), |device| device.name());
        Line::from(vec![
            Span::raw(format!(" {}", parts::fitted(name, NAME, app.theme))),
            Span::raw(format!("{:>3} of {}", count.missed(), count.asked)),
        ])
    };
    let mut lines = vec![Line::from("Missed, and therefore coming back sooner:")];
    lines.extend(missed.iter().take(ROWS).map(row));
    if missed.len() > ROWS {
        let more = format!(" and {} more", missed.len() - ROWS);
        lines.push(Line::from(Span::styled(more, app.theme.faint())));
    }
    lines.push(Line::default());
    lines
}

//! Pieces that every screen is made of: the head line, the foot line, wrapped text.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::{Paragraph, Wrap};

use super::theme::Theme;

/// A press and what it does.
pub(super) type Hint = (&'static str, &'static str);

/// The places of a screen.
pub(super) struct Places {
    pub(super) head: Rect,
    pub(super) body: Rect,
    pub(super) message: Rect,
    pub(super) foot: Rect,
}

/// The most lines that a message may take.
const MESSAGE: u16 = 3;

/// Divides the screen: a head of two lines, the body, as many lines as the message and
/// the hints need, one at least for the message so that the screen stands still.
pub(super) fn places(area: Rect, hints: &[Hint], message: Option<&str>) -> Places {
    let area = Rect {
        x: area.x + 1,
        width: area.width.saturating_sub(2),
        ..area
    };
    let rows = foot_rows(hints, area.width);
    let said = message.map_or(1, |text| lines_of(text, area.width));
    let [head, body, message, foot] = Layout::vertical([
        Constraint::Length(2),
        Constraint::Min(3),
        Constraint::Length(said),
        Constraint::Length(rows.len() as u16),
    ])
    .areas(area);
    Places {
        head,
        body,
        message,
        foot,
    }
}

/// The lines that a message needs, some room at each line's end given to whole words.
fn lines_of(message: &str, width: u16) -> u16 {
    const WORD: u16 = 12;
    let letters = u16::try_from(message.chars().count()).unwrap_or(u16::MAX);
    if letters <= width {
        return 1;
    }
    letters
        .div_ceil(width.saturating_sub(WORD).max(1))
        .min(MESSAGE)
}

/// Title left, what matters now right, a rule below.
pub(super) fn head(frame: &mut Frame<'_>, area: Rect, left: &str, right: &str, theme: Theme) {
    let [title, rule] = Layout::vertical([Constraint::Length(1); 2]).areas(area);
    frame.render_widget(
        Line::from(Span::styled(left.to_owned(), theme.strong())),
        title,
    );
    frame.render_widget(Line::from(right.to_owned()).right_aligned(), title);
    let stroke = theme.rule().repeat(usize::from(rule.width));
    frame.render_widget(Line::from(Span::styled(stroke, theme.faint())), rule);
}

/// The hints, as many to a line as fit.
pub(super) fn foot(frame: &mut Frame<'_>, area: Rect, hints: &[Hint], theme: Theme) {
    let lines: Vec<Line<'_>> = foot_rows(hints, area.width)
        .into_iter()
        .map(|row| {
            let spans = row.iter().flat_map(|(press, does)| {
                [
                    Span::styled(*press, theme.press()),
                    Span::styled(format!(" {does}   "), theme.faint()),
                ]
            });
            Line::from(spans.collect::<Vec<_>>())
        })
        .collect();
    frame.render_widget(Paragraph::new(lines), area);
}

fn foot_rows(hints: &[Hint], width: u16) -> Vec<&[Hint]> {
    let mut rows = Vec::new();
    let (mut from, mut used) = (0, 0);
    for (at, (press, does)) in hints.iter().enumerate() {
        let needs = press.chars().count() + does.chars().count() + 4;
        if used > 0 && used + needs > usize::from(width) + 3 {
            rows.push(&hints[from..at]);
            (from, used) = (at, 0);
        }
        used += needs;
    }
    rows.push(&hints[from..]);
    rows
}

/// Text broken at words.
pub(super) fn wrapped(lines: Vec<Line<'_>>) -> Paragraph<'_> {
    Paragraph::new(lines).wrap(Wrap { trim: true })
}

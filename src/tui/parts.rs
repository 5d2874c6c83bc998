//! Pieces that every screen is made of: the head line, the foot line, wrapped text.

use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::{Paragraph, Widget, Wrap};

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
    let most = hint_lines(area.height);
    let area = Rect {
        x: area.x + 1,
        width: area.width.saturating_sub(2),
        ..area
    };
    let rows = foot_rows(hints, area.width, most);
    let said = message.map_or(1, |text| lines_of(vec![Line::from(text)], area.width));
    let [head, body, message, foot] = Layout::vertical([
        Constraint::Length(2),
        Constraint::Min(3),
        Constraint::Length(said.clamp(1, MESSAGE)),
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

/// The lines that hints may take of a screen of so many.
fn hint_lines(height: u16) -> usize {
    match height {
        0..=15 => 1,
        16..=22 => 2,
        23.. => 4,
    }
}

const BLANK: &str = " ";

/// The lines that text takes when it is broken at words.
pub(super) fn lines_of(lines: Vec<Line<'_>>, width: u16) -> u16 {
    const MOST: u16 = 99;
    let area = Rect::new(0, 0, width.max(1), MOST);
    let mut buffer = Buffer::empty(area);
    wrapped(lines).render(area, &mut buffer);
    let is_blank = |y: u16| (0..area.width).all(|x| buffer[(x, y)].symbol() == BLANK);
    let last = (0..MOST).rev().find(|y| !is_blank(*y));
    last.map_or(0, |y| y + 1)
}

/// Title left, what matters now right, a rule below.
pub(super) fn head(frame: &mut Frame<'_>, area: Rect, left: &str, right: &str, theme: Theme) {
    let [title, rule] = Layout::vertical([Constraint::Length(1); 2]).areas(area);
    let room = usize::from(area.width).saturating_sub(Span::raw(right).width() + 1);
    let left = fitted(left, room, theme);
    frame.render_widget(Line::from(Span::styled(left, theme.strong())), title);
    frame.render_widget(Line::from(right.to_owned()).right_aligned(), title);
    let stroke = theme.rule().repeat(usize::from(rule.width));
    frame.render_widget(Line::from(Span::styled(stroke, theme.faint())), rule);
}

/// The hints, as many to a line as fit.
pub(super) fn foot(frame: &mut Frame<'_>, area: Rect, hints: &[Hint], theme: Theme) {
    let rows = foot_rows(hints, area.width, usize::from(area.height));
    let lines: Vec<Line<'_>> = rows
        .into_iter()
        .map(|row| {
            let spans = row.into_iter().flat_map(|(press, does)| {
                [
                    Span::styled(press, theme.press()),
                    Span::styled(format!(" {does}   "), theme.faint()),
                ]
            });
            Line::from(spans.collect::<Vec<_>>())
        })
        .collect();
    frame.render_widget(Paragraph::new(lines), area);
}

/// Hints that are always told, at the end of their row: help, and the way out.
const KEPT: usize = 2;

/// The hints in so many rows; where there are too many, those before the last two are
/// left to the help.
fn foot_rows(hints: &[Hint], width: u16, most: usize) -> Vec<Vec<Hint>> {
    let mut hints = hints.to_vec();
    loop {
        let rows = broken(&hints, width);
        if rows.len() <= most.max(1) || hints.len() <= KEPT {
            return rows;
        }
        hints.remove(hints.len() - KEPT - 1);
    }
}

fn broken(hints: &[Hint], width: u16) -> Vec<Vec<Hint>> {
    let mut rows = vec![Vec::new()];
    let mut used = 0;
    for hint in hints {
        let needs = hint.0.chars().count() + hint.1.chars().count() + 4;
        if used > 0 && used + needs > usize::from(width) + 3 {
            rows.push(Vec::new());
            used = 0;
        }
        used += needs;
        rows.last_mut().expect("there is a row").push(*hint);
    }
    rows
}

/// Text broken at words.
pub(super) fn wrapped(lines: Vec<Line<'_>>) -> Paragraph<'_> {
    Paragraph::new(lines).wrap(Wrap { trim: true })
}

/// A text in exactly so many columns: filled up with spaces, or cut.
pub(super) fn fitted(text: &str, columns: usize, theme: Theme) -> String {
    let kept = cut(text, columns, theme);
    let gap = columns.saturating_sub(Span::raw(&kept).width());
    kept + &" ".repeat(gap)
}

/// A text in at most so many columns.
pub(super) fn cut(text: &str, columns: usize, theme: Theme) -> String {
    let width = |text: &str| Span::raw(text).width();
    let mut kept = text.to_owned();
    if width(text) > columns {
        while width(&kept) + width(theme.cut()) > columns && kept.pop().is_some() {}
        kept += theme.cut();
    }
    kept
}

/// How much of the list lies outside the window.
pub(super) fn elsewhere(above: usize, below: usize) -> String {
    match (above, below) {
        (0, 0) => String::new(),
        (0, below) => format!("{below} more below"),
        (above, 0) => format!("{above} more above"),
        (above, below) => format!("{above} more above, {below} below"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const THEME: Theme = Theme {
        colour: false,
        ascii: false,
    };

    #[test]
    fn wide_characters_are_counted_as_two_columns() {
        assert_eq!(fitted("和声", 6, THEME), "和声  ");
        assert_eq!(fitted("和声の練習", 6, THEME), "和声… ");
        assert_eq!(fitted("Open ends", 6, THEME), "Open …");
        assert_eq!(fitted("Open", 4, THEME), "Open");
    }

    #[test]
    fn help_and_the_way_out_are_hinted_at_however_little_room_there_is() {
        let hints = [
            ("Space", "again"),
            ("c", "this chord"),
            ("?", "help"),
            ("Esc", "leave"),
        ];
        assert_eq!(foot_rows(&hints, 60, 2), [hints.to_vec()]);
        assert_eq!(foot_rows(&hints, 30, 1), [vec![hints[2], hints[3]]]);
        let two = [vec![hints[0], hints[1]], vec![hints[2], hints[3]]];
        assert_eq!(foot_rows(&hints, 30, 2), two);
    }

    #[test]
    fn the_lines_of_a_text_are_those_it_is_drawn_in() {
        let lines = || {
            vec![
                Line::from("one two three"),
                Line::default(),
                Line::from("four"),
            ]
        };
        assert_eq!(lines_of(lines(), 80), 3);
        assert_eq!(lines_of(lines(), 8), 4);
        assert_eq!(lines_of(vec![Line::default()], 8), 0);
    }
}

//! The chart of a line: bars in rows of four, each chord at its place in time.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::widgets::Widget;

use super::theme::Theme;
use crate::theory::{Line, Ticks};

/// What stands at one slot.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Cell {
    pub(super) text: String,
    pub(super) style: Style,
}

/// A line as bars of cells.
pub(super) struct Chart<'a> {
    pub(super) line: &'a Line,
    pub(super) cells: Vec<Cell>,
    /// The slot that sounds.
    pub(super) sounding: Option<usize>,
    pub(super) theme: Theme,
}

/// Bars in a row.
const BARS: u32 = 4;

impl Chart<'_> {
    fn rows(&self) -> u16 {
        u16::try_from(self.line.bars().div_ceil(BARS)).unwrap_or(u16::MAX)
    }

    /// Lines of the screen that the chart takes: two a row where there is room, else one.
    pub(super) fn height(&self, room: u16) -> u16 {
        let loose = 2 * self.rows();
        if loose <= room {
            loose
        } else {
            self.rows().min(room)
        }
    }

    /// The slot that sounds at a time.
    pub(super) fn slot_at(line: &Line, now: Ticks) -> Option<usize> {
        (0..line.slots().len())
            .rev()
            .find(|slot| line.start(*slot) <= now)
    }

    /// Column and row of a time, in bars' own measure.
    fn place(&self, start: Ticks, area: Rect, pitch: u16) -> (u16, u16, u16) {
        let bar = self.line.meter().bar();
        let index = start / bar;
        let width = bar_width(area);
        let within = u32::from(width.saturating_sub(2)) * (start % bar) / bar;
        let x = area.x + width * (index % BARS) as u16 + 2 + within as u16;
        let y = area.y + pitch * (index / BARS) as u16;
        let until = area.x + width * ((index % BARS) as u16 + 1);
        (x, y, until.saturating_sub(x))
    }
}

fn bar_width(area: Rect) -> u16 {
    (area.width.saturating_sub(1) / BARS as u16).max(4)
}

impl Widget for Chart<'_> {
    fn render(self, area: Rect, buffer: &mut Buffer) {
        let pitch = if area.height >= 2 * self.rows() { 2 } else { 1 };
        let names = if pitch == 2 { 1 } else { 0 };
        let width = bar_width(area);
        for bar in 0..self.line.bars() {
            let x = area.x + width * (bar % BARS) as u16;
            let y = area.y + pitch * (bar / BARS) as u16 + names;
            if y >= area.bottom() {
                break;
            }
            buffer.set_string(x, y, self.theme.bar_line(), self.theme.faint());
            if pitch == 2 {
                buffer.set_string(x + 2, y - 1, (bar + 1).to_string(), self.theme.faint());
            }
            let is_last = bar + 1 == self.line.bars() || bar % BARS == BARS - 1;
            if is_last && x + width < area.right() {
                buffer.set_string(x + width, y, self.theme.bar_line(), self.theme.faint());
            }
        }
        for bar in (0..self.line.bars()).filter(|bar| self.is_held(*bar)) {
            let start = bar * self.line.meter().bar();
            let (x, y, _) = self.place(start, area, pitch);
            if y + names < area.bottom() {
                buffer.set_string(x, y + names, "%", self.theme.faint());
            }
        }
        for (slot, cell) in self.cells.iter().enumerate() {
            let (x, y, room) = self.place(self.line.start(slot), area, pitch);
            if y + names >= area.bottom() {
                break;
            }
            let room = self.room(slot, room, width);
            buffer.set_stringn(x, y + names, &cell.text, usize::from(room), cell.style);
            if self.sounding == Some(slot) {
                buffer.set_string(x - 1, y + names, self.theme.pointer(), self.theme.strong());
            }
        }
    }
}

impl Chart<'_> {
    /// Whether no chord begins in the bar: the one before is held.
    fn is_held(&self, bar: u32) -> bool {
        (0..self.line.slots().len()).all(|slot| self.line.bar(slot) != bar + 1)
    }

    /// Columns for a cell's text: up to the next chord of the same bar.
    fn room(&self, slot: usize, until_bar: u16, width: u16) -> u16 {
        let bar = self.line.meter().bar();
        let start = self.line.start(slot);
        let next = start + self.line.slots()[slot].length;
        let same_bar = next / bar == start / bar && !next.is_multiple_of(bar);
        if same_bar {
            let share = u32::from(width.saturating_sub(2)) * (next - start) / bar;
            (share as u16).saturating_sub(1)
        } else {
            until_bar.saturating_sub(1)
        }
    }
}

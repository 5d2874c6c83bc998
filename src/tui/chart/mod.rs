//! The chart of a line: bars in rows of four, or of two where four are too narrow, each
//! chord at its place in time.

mod bar;
mod cell;

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::widgets::Widget;

pub(super) use cell::Cell;

use super::theme::Theme;
use crate::theory::{Line, Ticks};

/// A line as bars of cells.
pub(super) struct Chart<'a> {
    pub(super) line: &'a Line,
    pub(super) cells: Vec<Cell>,
    /// The slot that sounds.
    pub(super) sounding: Option<usize>,
    pub(super) theme: Theme,
}

/// Bars in a row: few enough for names to stand whole, if that can be.
const BARS: [u32; 2] = [4, 2];

/// Columns before a bar's first chord: the bar line, and where the pointer stands.
const MARGIN: u16 = 2;

impl Chart<'_> {
    /// Bars in a row where the chart has so much room.
    fn bars_in_row(&self, width: u16, height: u16) -> u32 {
        let [most, fewest] = BARS;
        let columns = columns(width, most);
        let fit = (0..self.line.bars()).all(|bar| bar::fit(&self.cells_of(bar, columns), columns));
        let lines = self.line.bars().div_ceil(fewest);
        if fit || lines > u32::from(height) {
            most
        } else {
            fewest
        }
    }

    fn rows(&self, bars: u32) -> u16 {
        u16::try_from(self.line.bars().div_ceil(bars)).unwrap_or(u16::MAX)
    }

    /// Lines of the screen that the chart takes: two a row where there is room, else one.
    pub(super) fn height(&self, width: u16, room: u16) -> u16 {
        let rows = self.rows(self.bars_in_row(width, room));
        if 2 * rows <= room {
            2 * rows
        } else {
            rows.min(room)
        }
    }

    /// The slot that sounds at a time.
    pub(super) fn slot_at(line: &Line, now: Ticks) -> Option<usize> {
        (0..line.slots().len())
            .rev()
            .find(|slot| line.start(*slot) <= now)
    }

    fn slots_of(&self, bar: u32) -> impl Iterator<Item = usize> {
        (0..self.line.slots().len()).filter(move |slot| self.line.bar(*slot) == bar + 1)
    }

    /// The cells of a bar, each with the column of its time among so many.
    fn cells_of(&self, bar: u32, columns: usize) -> Vec<(usize, &Cell)> {
        let length = self.line.meter().bar();
        self.slots_of(bar)
            .filter_map(|slot| {
                let within = self.line.start(slot) % length;
                let column = columns * within as usize / length as usize;
                Some((column, self.cells.get(slot)?))
            })
            .collect()
    }
}

fn bar_width(width: u16, bars: u32) -> u16 {
    (width.saturating_sub(1) / bars as u16).max(4)
}

/// Columns for the chords of a bar, one left free before the next bar line.
fn columns(width: u16, bars: u32) -> usize {
    usize::from(bar_width(width, bars).saturating_sub(MARGIN + 1))
}

impl Widget for Chart<'_> {
    fn render(self, area: Rect, buffer: &mut Buffer) {
        let bars = self.bars_in_row(area.width, area.height);
        let pitch = if area.height >= 2 * self.rows(bars) {
            2
        } else {
            1
        };
        let width = bar_width(area.width, bars);
        for bar in 0..self.line.bars() {
            let x = area.x + width * (bar % bars) as u16;
            let y = area.y + pitch * (bar / bars) as u16 + (pitch - 1);
            if y >= area.bottom() || x >= area.right() {
                continue;
            }
            buffer.set_string(x, y, self.theme.bar_line(), self.theme.faint());
            if pitch == 2 {
                buffer.set_string(x + MARGIN, y - 1, (bar + 1).to_string(), self.theme.faint());
            }
            let is_last = bar + 1 == self.line.bars() || bar % bars == bars - 1;
            if is_last && x + width < area.right() {
                buffer.set_string(x + width, y, self.theme.bar_line(), self.theme.faint());
            }
            self.draw_bar(bar, (x + MARGIN, y), columns(area.width, bars), buffer);
        }
    }
}

impl Chart<'_> {
    fn draw_bar(&self, bar: u32, (x, y): (u16, u16), columns: usize, buffer: &mut Buffer) {
        let cells = self.cells_of(bar, columns);
        if cells.is_empty() {
            // The chord before is held.
            buffer.set_string(x, y, "%", self.theme.faint());
        }
        let placed = bar::placed(&cells, columns, self.theme.cut());
        for ((slot, (_, cell)), placed) in self.slots_of(bar).zip(&cells).zip(placed) {
            let x = x + u16::try_from(placed.column).unwrap_or(u16::MAX);
            buffer.set_string(x, y, &placed.text, cell.style);
            if self.sounding == Some(slot) {
                buffer.set_string(x - 1, y, self.theme.pointer(), self.theme.strong());
            }
        }
    }
}

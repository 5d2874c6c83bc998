//! What stands at one slot of a chart.

use ratatui::style::Style;

/// A chord as it is named on the chart.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::tui) struct Cell {
    pub(in crate::tui) text: String,
    /// The sign of a mark; empty where there is none.
    pub(in crate::tui) sign: &'static str,
    /// Whether the next press is about it.
    pub(in crate::tui) is_current: bool,
    pub(in crate::tui) style: Style,
}

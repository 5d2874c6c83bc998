//! The one line at the foot of a screen.

use ratatui::style::Style;

use super::theme::Theme;

/// Something to tell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum StatusMessage {
    /// What went wrong, or was misread.
    Fault(String),
    /// What is as it was wished.
    Aside(String),
}

impl StatusMessage {
    pub(super) fn text(&self) -> &str {
        match self {
            Self::Fault(text) | Self::Aside(text) => text,
        }
    }

    pub(super) fn style(&self, theme: Theme) -> Style {
        match self {
            Self::Fault(_) => theme.warning(),
            Self::Aside(_) => theme.faint(),
        }
    }
}

//! The few styles of the trainer. They rest on the terminal's own colours, so that dark
//! and light backgrounds both work, and no meaning hangs on colour alone.

use ratatui::style::{Color, Modifier, Style};

use crate::harmony::Tier;
use crate::theory::Notation;

/// How the trainer looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Theme {
    /// Whether colours are used.
    pub colour: bool,
    /// Whether only ASCII signs are used.
    pub ascii: bool,
}

impl Theme {
    /// How chords are written with these signs.
    #[must_use]
    pub fn notation(self) -> Notation {
        if self.ascii {
            Notation::Ascii
        } else {
            Notation::Screen
        }
    }

    fn tinted(self, colour: Color) -> Style {
        if self.colour {
            Style::new().fg(colour)
        } else {
            Style::new()
        }
    }

    /// Ordinary text.
    pub(super) fn text(self) -> Style {
        Style::new()
    }

    /// What may be overlooked.
    pub(super) fn faint(self) -> Style {
        if self.colour {
            Style::new().fg(Color::DarkGray)
        } else {
            Style::new().add_modifier(Modifier::DIM)
        }
    }

    /// Titles and what matters most.
    pub(super) fn strong(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD)
    }

    /// What the next press acts on.
    pub(super) fn current(self) -> Style {
        Style::new().add_modifier(Modifier::REVERSED)
    }

    /// A key to press.
    pub(super) fn press(self) -> Style {
        self.strong()
    }

    /// What went wrong outside the music.
    pub(super) fn warning(self) -> Style {
        self.tinted(Color::Red)
    }

    /// Points at the chord that sounds.
    pub(super) fn pointer(self) -> &'static str {
        if self.ascii { ">" } else { "▸" }
    }

    /// The look of a mark.
    pub(super) fn mark(self, tier: Tier) -> Style {
        match tier {
            Tier::Right | Tier::OtherName => self.tinted(Color::Green),
            Tier::OtherForm
            | Tier::WrongTarget
            | Tier::WrongQuality
            | Tier::Partly
            | Tier::AreaOnly
            | Tier::WrongContext => self.tinted(Color::Magenta),
            Tier::Wrong => self.tinted(Color::Red),
        }
        .add_modifier(Modifier::BOLD)
    }

    /// The sign of a mark.
    pub(super) fn mark_sign(self, tier: Tier) -> &'static str {
        match (tier, self.ascii) {
            (Tier::Right | Tier::OtherName, false) => "✓",
            (Tier::Right | Tier::OtherName, true) => "+",
            (
                Tier::OtherForm
                | Tier::WrongTarget
                | Tier::WrongQuality
                | Tier::Partly
                | Tier::AreaOnly
                | Tier::WrongContext,
                false,
            ) => "≈",
            (
                Tier::OtherForm
                | Tier::WrongTarget
                | Tier::WrongQuality
                | Tier::Partly
                | Tier::AreaOnly
                | Tier::WrongContext,
                true,
            ) => "~",
            (Tier::Wrong, false) => "✗",
            (Tier::Wrong, true) => "x",
        }
    }

    /// A vertical stroke between bars.
    pub(super) fn bar_line(self) -> &'static str {
        if self.ascii { "|" } else { "│" }
    }

    /// A horizontal stroke.
    pub(super) fn rule(self) -> &'static str {
        if self.ascii { "-" } else { "─" }
    }

    /// Ends a text that is cut.
    pub(super) fn cut(self) -> &'static str {
        if self.ascii { "~" } else { "…" }
    }

    /// Stands for a chord whose name is hidden.
    pub(super) fn hidden(self) -> &'static str {
        if self.ascii { "." } else { "·" }
    }
}

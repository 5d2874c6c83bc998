//! Presses: what the keyboard says, apart from what it means.

use crossterm::event::{Event, KeyCode, KeyEventKind, KeyModifiers};

/// One press of the keyboard. (A `Key` is a musical key.)
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Press {
    /// A character, as typed.
    Character(char),
    /// Enter.
    Enter,
    /// Escape.
    Escape,
    /// Backspace.
    Backspace,
    /// The arrow to the left.
    Left,
    /// The arrow to the right.
    Right,
    /// The arrow up.
    Up,
    /// The arrow down.
    Down,
    /// A page up.
    PageUp,
    /// A page down.
    PageDown,
    /// Control and C: out at once.
    Interrupt,
    /// Control and Z: stopped until the shell goes on with it.
    Suspend,
}

impl Press {
    /// The press that a terminal event is, if it is one that means anything here.
    #[must_use]
    pub fn of(event: &Event) -> Option<Self> {
        let Event::Key(key) = event else { return None };
        if key.kind == KeyEventKind::Release {
            return None;
        }
        let control = key.modifiers.contains(KeyModifiers::CONTROL);
        match key.code {
            KeyCode::Char('c') if control => Some(Self::Interrupt),
            KeyCode::Char('z') if control => Some(Self::Suspend),
            KeyCode::Char(_) if control || key.modifiers.contains(KeyModifiers::ALT) => None,
            KeyCode::Char(character) => Some(Self::Character(character)),
            KeyCode::Enter => Some(Self::Enter),
            KeyCode::Esc => Some(Self::Escape),
            KeyCode::Backspace => Some(Self::Backspace),
            KeyCode::Left => Some(Self::Left),
            KeyCode::Right | KeyCode::Tab => Some(Self::Right),
            KeyCode::Up => Some(Self::Up),
            KeyCode::Down => Some(Self::Down),
            KeyCode::PageUp => Some(Self::PageUp),
            KeyCode::PageDown => Some(Self::PageDown),
            _ => None,
        }
    }
}

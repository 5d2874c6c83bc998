//! The presses that let something be heard, alike on every screen with a line.

use crate::quiz::Hearing;
use crate::tui::press::Press;

/// What a press lets be heard; `slot` is the chord that is asked or explained.
pub(super) fn hearing(press: Press, slot: Option<usize>) -> Option<Hearing> {
    match press {
        Press::Character(' ') | Press::Up => Some(Hearing::Line),
        Press::Character('c') | Press::Down => Some(Hearing::Slot(slot?)),
        Press::Character('_') => Some(Hearing::Bass),
        Press::Character('<') => Some(Hearing::Slower),
        Press::Character('k') => Some(Hearing::Key),
        Press::Character(_)
        | Press::Enter
        | Press::Escape
        | Press::Backspace
        | Press::Left
        | Press::Right
        | Press::Interrupt => None,
    }
}

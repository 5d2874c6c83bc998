//! The chords around a chord.

use crate::theory::{Line, Mode, Numeral};

/// What a chord stands between.
#[derive(Clone, Debug, PartialEq)]
pub struct Context {
    /// The mode of the home key.
    pub mode: Mode,
    /// The chord before, if it is not the first.
    pub before: Option<Numeral>,
    /// The chord that follows.
    pub next: Numeral,
    /// The chord after the next.
    pub after: Option<Numeral>,
}

impl Context {
    /// A context of which only the next chord is known.
    #[must_use]
    pub fn leading_to(next: &Numeral, mode: Mode) -> Self {
        Self {
            mode,
            before: None,
            next: next.clone(),
            after: None,
        }
    }

    /// The context of a slot. The line is taken to turn back: what follows the last chord
    /// is the first.
    ///
    /// # Panics
    /// If the line has no such slot.
    #[must_use]
    pub fn in_line(line: &Line, slot: usize, mode: Mode) -> Self {
        let slots = line.slots();
        let at = |slot: usize| slots[slot % slots.len()].numeral.clone();
        Self {
            mode,
            before: slot.checked_sub(1).map(at),
            next: at(slot + 1),
            after: Some(at(slot + 2)),
        }
    }
}

//! Steps between degrees as they sound, and what may be a target.

use crate::theory::{Degree, Mode};

pub(super) const fn degree(number: u8) -> Degree {
    Degree::new(number, 0)
}

pub(super) const fn flat(number: u8) -> Degree {
    Degree::new(number, -1)
}

/// Chromatic steps from one degree up to another, 0 to 11, whatever the spelling.
pub(super) fn steps(from: Degree, to: Degree) -> i32 {
    (to.interval().chromatic() - from.interval().chromatic()).rem_euclid(12)
}

/// Whether chords on this degree belong to the key or are borrowed from its parallel.
pub(super) fn can_be_target(target: Degree, mode: Mode) -> bool {
    let fifths = target.interval().fifths();
    match mode {
        Mode::Major => (-5..=5).contains(&fifths),
        Mode::Minor => (-5..=2).contains(&fifths) || fifths == 5,
    }
}

//! How roots move from chord to chord.

use crate::devices::shape::{Kind, Shape};
use crate::theory::{IntervalClass, Numeral};

/// Whether the second root lies `interval` above the first, as it sounds.
pub(super) fn rises_by(interval: IntervalClass, one: &Numeral, next: &Numeral) -> bool {
    let target = one.root().up(interval).interval().chromatic();
    target == next.root().interval().chromatic()
}

/// Whether the second root lies a perfect fifth below the first.
pub(super) fn falls_a_fifth(one: &Numeral, next: &Numeral) -> bool {
    rises_by(IntervalClass::PERFECT_FOURTH, one, next)
}

/// Whether the second root lies a semitone below the first.
pub(super) fn falls_a_semitone(one: &Numeral, next: &Numeral) -> bool {
    rises_by(IntervalClass::MAJOR_SEVENTH, one, next)
}

/// Whether the chord acts as a dominant seventh.
pub(super) fn is_dominant(chord: &Numeral) -> bool {
    Shape::acting(chord).kind == Kind::Dominant
}

/// Whether the two are a minor or half-diminished chord and the dominant a fifth below it.
pub(super) fn is_two_five(one: &Numeral, next: &Numeral) -> bool {
    matches!(Shape::of(one).kind, Kind::Minor | Kind::HalfDiminished)
        && is_dominant(next)
        && falls_a_fifth(one, next)
}

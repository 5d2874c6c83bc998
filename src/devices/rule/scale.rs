//! Which chords a key's own scale holds.

use crate::theory::{Degree, IntervalClass, Mode, Numeral};

/// Whether every note of the chord, tensions aside, belongs to the key on `tonic`: the
/// major scale, or natural minor with the leading tone in its dominant chords.
pub(super) fn holds(tonic: Degree, mode: Mode, chord: &Numeral) -> bool {
    let above = |degree: Degree| degree.interval().fifths() - tonic.interval().fifths();
    let leads = matches!(
        IntervalClass::from_fifths(above(chord.root())),
        IntervalClass::PERFECT_FIFTH | IntervalClass::MAJOR_SEVENTH
    );
    chord
        .without_tensions()
        .degrees()
        .into_iter()
        .map(above)
        .all(|fifths| match mode {
            Mode::Major => (-1..=5).contains(&fifths),
            Mode::Minor => (-4..=2).contains(&fifths) || (leads && fifths == 5),
        })
}

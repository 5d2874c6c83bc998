//! The second note of a bass that alternates.

use crate::arranging::register::BASS_REACH;
use crate::arranging::voicing::Voicing;
use crate::theory::{Chord, Member, OCTAVE, Pitch};

/// The note that a bass goes to between two strokes of its own: the fifth of a chord in
/// root position, the lower one if it is in reach; otherwise the same note again, so that
/// an inversion stays what it is.
pub(in crate::arranging::texture) fn alternate(chord: &Chord, voicing: &Voicing) -> Pitch {
    let fifth = chord.member(Member::Fifth);
    match fifth {
        Some(fifth) if chord.bass() == chord.root() => {
            let above = Pitch::at_or_above(fifth, voicing.bass.midi());
            let below = Pitch::new(fifth, above.octave - 1);
            if below.midi() >= *BASS_REACH.start() {
                below
            } else {
                above
            }
        }
        Some(_) | None => voicing.bass,
    }
}

/// How far a bass that moves may rise: below every upper voice.
pub(super) const HIGHEST: i32 = 52;

/// Every place of a bass that walks, as MIDI numbers.
pub(super) fn reach() -> std::ops::RangeInclusive<i32> {
    *BASS_REACH.start()..=HIGHEST.max(BASS_REACH.start() + OCTAVE)
}

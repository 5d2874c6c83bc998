//! Falling fifths within the scale.

use std::ops::Range;

use super::run::runs;
use super::scale::holds;
use crate::devices::pattern::bass_of;
use crate::theory::{Degree, Mode, Numeral};

/// The fewest chords in which the cycle is heard as one, and not as a cadence.
const FEWEST: usize = 4;

/// Every run of diatonic chords whose roots fall by the fifths of the scale, the
/// diminished one included.
pub(super) fn find(line: &[&Numeral], mode: Mode) -> Vec<Range<usize>> {
    let at_home = |chord: &Numeral| {
        // Over a bass that stays, nothing falls.
        let moves = chord.degrees()[..2].contains(&bass_of(chord));
        moves && holds(Degree::TONIC, mode, chord)
    };
    let mut found = runs(line, |one, next| {
        let falls = (one.root().number() + 2) % 7 + 1 == next.root().number();
        falls && at_home(one) && at_home(next)
    });
    found.retain(|run| run.len() >= FEWEST);
    found
}

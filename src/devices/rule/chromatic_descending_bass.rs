//! A bass that sinks by semitones from the tonic to the dominant.

use std::ops::Range;

use crate::devices::pattern::bass_of;
use crate::theory::Numeral;

/// Semitones above the tonic: 1, 7, flat 7, 6, flat 6, 5.
const DESCENT: [i32; 6] = [0, 11, 10, 9, 8, 7];

/// Every six chords over the whole descent.
pub(super) fn find(line: &[&Numeral]) -> Vec<Range<usize>> {
    let basses: Vec<i32> = line
        .iter()
        .map(|chord| bass_of(chord).interval().chromatic())
        .collect();
    (0..basses.len())
        .map(|from| from..from + DESCENT.len())
        .filter(|range| basses.get(range.clone()) == Some(&DESCENT))
        .collect()
}

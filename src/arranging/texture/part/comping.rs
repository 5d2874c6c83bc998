//! Comping: chords struck in the rhythms of an accompanist, each first within its first
//! beat.

use super::{Groove, Segment};
use crate::arranging::chance::Purpose;
use crate::arranging::texture::Touch;

/// A stroke: how many eighths after the beginning of the chord, and how many it lasts.
type Stroke = (u32, u32);

/// Rhythms for a stretch of at least so many beats. All begin on the first beat or the
/// eighth after it, so that the chord is heard before its first beat is over.
const RHYTHMS: [(u32, &[&[Stroke]]); 4] = [
    (
        4,
        &[
            &[(0, 3), (3, 1)],
            &[(0, 1), (5, 2)],
            &[(1, 2), (5, 3)],
            &[(0, 2), (3, 2), (6, 1)],
            &[(1, 3), (6, 1)],
        ],
    ),
    (
        3,
        &[&[(0, 2), (3, 1)], &[(1, 2), (4, 1)], &[(0, 1), (3, 3)]],
    ),
    (2, &[&[(0, 2), (3, 1)], &[(0, 3)], &[(1, 2)]]),
    (0, &[&[(0, 1)]]),
];

/// Plays the upper voices of each segment, `accent` times their ordinary strength.
pub(in crate::arranging::texture) fn comp(
    segments: &[Segment],
    groove: Groove,
    accent: f32,
    touch: &mut Touch,
) {
    let mut chance = touch.chance(Purpose::Comping);
    for segment in segments {
        let whole = segment.length() / groove.beat;
        let (_, rhythms) = RHYTHMS
            .iter()
            .find(|(beats, _)| *beats <= whole)
            .expect("the last one fits any length");
        let drawn = chance.below(rhythms.len() as u16);
        for (after, lasts) in rhythms[drawn as usize] {
            let start = segment.eighths(groove, *after);
            let end = segment.eighths(groove, after + lasts);
            if start < end {
                touch.upper(segment.voicing, start, end, accent);
            }
        }
    }
}

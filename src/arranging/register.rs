//! The registers of the bass and the upper voices, and how low an interval may lie.

use std::ops::RangeInclusive;

/// Where the bass lies by choice, as MIDI numbers: E2 to D3.
pub const BASS: RangeInclusive<i32> = 40..=50;

/// How far the bass may reach when its line asks for it: E2 to G3.
pub const BASS_REACH: RangeInclusive<i32> = 40..=55;

/// Where the upper voices lie: G3 to C5.
pub const UPPER: RangeInclusive<i32> = 55..=72;

/// How high the top voice alone may go: E5.
pub const TOP: i32 = 76;

/// The widest gap between neighbouring upper voices, in semitones.
pub const WIDEST_GAP: i32 = 12;

/// The lowest MIDI number on which an interval of `semitones` still sounds clear.
///
/// The low-interval limits that arrangers learn, from memory: major second E♭3, minor
/// third C3, major third and fourth B♭2, fifth B♭1; the minor second lies a semitone
/// above the major, the tritone with the fourth. Wider intervals have none above E2.
#[must_use]
pub fn low_limit(semitones: i32) -> i32 {
    match semitones {
        ..=0 => i32::MIN,
        1 => 52,
        2 => 51,
        3 => 48,
        4..=6 => 46,
        7 => 34,
        8.. => i32::MIN,
    }
}

/// Whether neighbouring notes, the lower first, stay clear of the low-interval limit.
#[must_use]
pub(super) fn is_clear(lower: i32, upper: i32) -> bool {
    lower >= low_limit(upper - lower)
}

//! Drums played with brushes. What they play depends on the meter alone.

use super::Groove;
use crate::arranging::passage::Drum;
use crate::arranging::texture::Touch;
use crate::theory::Ticks;

/// Swing time: a swirl through each pair of beats, the hi-hat and a tap on the second of
/// each, a tap before the next, the bass drum felt on every beat.
pub(in crate::arranging::texture) fn brush(length: Ticks, groove: Groove, touch: &mut Touch) {
    let mut beat = 0;
    while beat < length {
        let number = groove.number(beat);
        let end = length.min(beat + groove.beat);
        let bar_end = (beat / groove.bar + 1) * groove.bar;
        let next_pair = length.min(bar_end).min(beat + 2 * groove.beat);
        touch.drum(Drum::Kick, beat, end, 0.12);
        if number.is_multiple_of(2) {
            touch.drum(Drum::Swirl, beat, next_pair, 0.3);
        } else {
            touch.drum(Drum::HiHat, beat, end, 0.3);
            let skip = end.min(beat + groove.eighths(1));
            touch.drum(Drum::Tap, beat, skip, 0.34);
            if skip < end {
                touch.drum(Drum::Tap, skip, end, 0.2);
            }
        }
        beat += groove.beat;
    }
}

/// A slow tune: one brush stirring, the other tapping softly.
pub(in crate::arranging::texture) fn stir(length: Ticks, groove: Groove, touch: &mut Touch) {
    let mut beat = 0;
    while beat < length {
        let end = length.min(beat + groove.beat);
        touch.drum(Drum::Swirl, beat, end, 0.28);
        if !groove.number(beat).is_multiple_of(2) {
            touch.drum(Drum::Tap, beat, end, 0.2);
            touch.drum(Drum::HiHat, beat, end, 0.2);
        }
        beat += groove.beat;
    }
}

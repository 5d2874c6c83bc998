//! Drums: brushes on the snare in slower swing, the ride cymbal in faster. What they play
//! depends on the meter, the tempo and chance alone, never on the harmony.

use super::Groove;
use crate::arranging::chance::{Chance, Purpose};
use crate::arranging::passage::Drum;
use crate::arranging::texture::Touch;
use crate::theory::Ticks;

/// Beats a minute from which the time is kept on the ride cymbal: common practice.
const RIDE_FROM: f32 = 132.0;

/// A stroke strays by this part of a beat at most: 5 ms either way at a medium tempo, below
/// the 10 to 20 ms at which tones begin to come apart (Rasch 1979).
const PARTS: Ticks = 100;

/// A drummer's hands, no two strokes of which are alike.
struct Hands<'t> {
    touch: &'t mut Touch,
    chance: Chance,
    length: Ticks,
    beat: Ticks,
}

impl<'t> Hands<'t> {
    fn new(length: Ticks, groove: Groove, touch: &'t mut Touch) -> Self {
        Self {
            chance: touch.chance(Purpose::Drums),
            touch,
            length,
            beat: groove.beat,
        }
    }

    fn strike(&mut self, drum: Drum, start: Ticks, end: Ticks, strength: f32) {
        let part = self.beat / PARTS;
        let stray = self.chance.below(2 * part as u16 + 1) as Ticks;
        let weight = 0.82 + 0.36 * self.chance.below(1024) as f32 / 1024.0;
        // Never before the beginning of the passage, nor after its end.
        let start = (start + stray).saturating_sub(part);
        let end = end.min(self.length);
        if start < end {
            self.touch.drum(drum, start, end, strength * weight);
        }
    }

    /// Whether something that happens `of` times in ten happens now.
    fn happens(&mut self, of: i32) -> bool {
        self.chance.below(10) < of
    }
}

/// Swing time at `tempo` beats a minute: by brushes, or on the ride cymbal if it is fast. The
/// hi-hat and an accent on the second of each pair of beats, the bass drum felt on each.
pub(in crate::arranging::texture) fn brush(
    length: Ticks,
    groove: Groove,
    tempo: f32,
    touch: &mut Touch,
) {
    let mut hands = Hands::new(length, groove, touch);
    let mut beat = 0;
    while beat < length {
        let end = beat + groove.beat;
        let off = !groove.number(beat).is_multiple_of(2);
        hands.strike(Drum::Kick, beat, end, if off { 0.1 } else { 0.14 });
        if off {
            hands.strike(Drum::HiHat, beat, end, 0.3);
        }
        if tempo >= RIDE_FROM {
            ride(&mut hands, beat, groove, off);
        } else {
            sweep(&mut hands, beat, groove, off);
        }
        beat = end;
    }
}

/// How much of a beat a swirl takes, so that each swells and dies away by itself.
const SWIRL: (Ticks, Ticks) = (7, 10);

/// A swirl on each beat, wider on the first of a pair; on the second a tap and, mostly, one
/// before the next.
fn sweep(hands: &mut Hands, beat: Ticks, groove: Groove, off: bool) {
    let end = beat + groove.beat;
    let swirl = beat + groove.beat * SWIRL.0 / SWIRL.1;
    hands.strike(Drum::Swirl, beat, swirl, if off { 0.2 } else { 0.3 });
    if !off {
        // A tap that answers the last one, now and then.
        if hands.happens(2) {
            hands.strike(Drum::Tap, beat + groove.eighths(1), end, 0.14);
        }
        return;
    }
    let skip = beat + groove.eighths(1);
    hands.strike(Drum::Tap, beat, skip, 0.36);
    if hands.happens(8) {
        hands.strike(Drum::Tap, skip, end, 0.2);
    }
}

/// The cymbal on every beat, stronger on the second of each pair, with the eighth after it;
/// a soft tap on the snare in between, now and then.
fn ride(hands: &mut Hands, beat: Ticks, groove: Groove, off: bool) {
    let end = beat + groove.beat;
    let skip = beat + groove.eighths(1);
    let follows = off && hands.happens(9);
    let until = if follows { skip } else { end };
    hands.strike(Drum::Ride, beat, until, if off { 0.42 } else { 0.34 });
    if follows {
        hands.strike(Drum::Ride, skip, end, 0.27);
    }
    if hands.happens(2) {
        hands.strike(Drum::Tap, skip, end, 0.14);
    }
}

/// A slow tune: one brush stirring, the other tapping softly.
pub(in crate::arranging::texture) fn stir(length: Ticks, groove: Groove, touch: &mut Touch) {
    let mut hands = Hands::new(length, groove, touch);
    let mut beat = 0;
    while beat < length {
        let end = beat + groove.beat;
        let swirl = beat + groove.beat * SWIRL.0 / SWIRL.1;
        hands.strike(Drum::Swirl, beat, swirl, 0.28);
        if !groove.number(beat).is_multiple_of(2) {
            hands.strike(Drum::Tap, beat, end, 0.2);
            hands.strike(Drum::HiHat, beat, end, 0.2);
        }
        beat = end;
    }
}

//! The pulse of a texture: where its beats and the eighths between them fall.

use crate::theory::{Meter, TICKS_PER_BEAT, Ticks};

/// The short eighth of a swung pair, in seconds. Drummers keep it near 100 ms from medium
/// to fast tempos, so that eighths are even when the tempo is fast (Friberg and Sundström,
/// Music Perception 19, 2002).
const SHORT_EIGHTH: f32 = 0.1;

/// How far into the beat the second eighth may fall: a ratio of 7 to 3. Soloists swing
/// less than the 3.5 to 1 that the same study found on cymbals at slow tempos.
const LATEST: f32 = 0.7;

/// A beat, a bar of them, and where the second eighth of a beat falls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::arranging::texture) struct Groove {
    pub(in crate::arranging::texture) beat: Ticks,
    pub(in crate::arranging::texture) bar: Ticks,
    second_eighth: Ticks,
}

impl Groove {
    /// Even eighths.
    pub(in crate::arranging::texture) fn straight(meter: Meter) -> Self {
        Self {
            beat: TICKS_PER_BEAT,
            bar: meter.bar(),
            second_eighth: TICKS_PER_BEAT / 2,
        }
    }

    /// Swung eighths, the more even the faster.
    pub(in crate::arranging::texture) fn swung(meter: Meter, tempo: f32) -> Self {
        Self {
            second_eighth: second_eighth(TICKS_PER_BEAT, tempo),
            ..Self::straight(meter)
        }
    }

    /// Twice as many beats in the same time, as players count a slow tune in double time.
    pub(in crate::arranging::texture) fn doubled(meter: Meter, tempo: f32) -> Self {
        let beat = TICKS_PER_BEAT / 2;
        Self {
            beat,
            bar: meter.bar() / 2,
            second_eighth: second_eighth(beat, 2.0 * tempo),
        }
    }

    /// The length of `count` eighths, the first of them on a beat.
    pub(in crate::arranging::texture) fn eighths(self, count: u32) -> Ticks {
        count / 2 * self.beat + count % 2 * self.second_eighth
    }

    /// The same beats with even eighths.
    pub(in crate::arranging::texture) fn evened(self) -> Self {
        Self {
            second_eighth: self.beat / 2,
            ..self
        }
    }

    /// Which beat of its bar a time belongs to, from 0.
    pub(in crate::arranging::texture) fn number(self, time: Ticks) -> u32 {
        time % self.bar / self.beat
    }

    pub(in crate::arranging::texture) fn is_on_beat(self, time: Ticks) -> bool {
        time.is_multiple_of(self.beat)
    }
}

fn second_eighth(beat: Ticks, tempo: f32) -> Ticks {
    let seconds = 60.0 / tempo;
    let place = (1.0 - SHORT_EIGHTH / seconds).clamp(0.5, LATEST);
    (beat as f32 * place).round() as Ticks
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ratio(tempo: f32) -> f32 {
        let groove = Groove::swung(Meter::FourFour, tempo);
        let long = groove.eighths(1) as f32;
        long / (groove.beat as f32 - long)
    }

    #[test]
    fn swing_evens_out_as_the_tempo_rises() {
        // Friberg and Sundström 2002: even at fast tempos; two to one, the triplet, at one
        // tempo only, where the short eighth of 100 ms is a third of the beat.
        assert!((ratio(300.0) - 1.0).abs() < 0.01);
        assert!((ratio(200.0) - 2.0).abs() < 0.01);
        let mut before = f32::INFINITY;
        for tempo in (30..=300).step_by(10) {
            let now = ratio(tempo as f32);
            assert!(now <= before + 1e-3 && (1.0..=2.34).contains(&now), "{now}");
            before = now;
        }
    }

    #[test]
    fn double_time_halves_the_beat() {
        let plain = Groove::swung(Meter::ThreeFour, 60.0);
        let doubled = Groove::doubled(Meter::ThreeFour, 60.0);
        assert_eq!((doubled.beat * 2, doubled.bar * 2), (plain.beat, plain.bar));
        assert_eq!(doubled.eighths(4), plain.eighths(2));
    }
}

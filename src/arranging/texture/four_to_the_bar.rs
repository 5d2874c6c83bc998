//! Four to the bar: a short chord on every beat over a bass on one and three.

use super::{Card, Manner, Scene, Touch};
use crate::theory::{Meter, TICKS_PER_BEAT, Ticks};

pub(super) const CARD: Card = Card {
    id: "four-to-the-bar",
    title: "Four to the bar",
    about: "A short chord on every beat, the bass on one and three.",
    difficulty: 0.15,
    fair: true,
    tempos: (50, 260),
    bassist: false,
    manner: Manner::Full,
    lay,
};

/// How many beats a bass note sounds, unless the chord ends before.
fn bass_beats(meter: Meter) -> u32 {
    match meter {
        Meter::TwoFour | Meter::FourFour => 2,
        Meter::ThreeFour => 3,
    }
}

fn lay(scene: &Scene, touch: &mut Touch) {
    let setting = scene.setting;
    let bass_beats = bass_beats(setting.meter);
    for (span, _, voicing) in setting.parts() {
        let length = span.end - span.start;
        // A chord shorter than a beat, or off the beats, is struck at even distances.
        let strokes = ((length + TICKS_PER_BEAT / 2) / TICKS_PER_BEAT).max(1);
        let stroke = |number: Ticks| span.start + length * number / strokes;
        for number in 0..strokes {
            let (start, end) = (stroke(number), stroke(number + 1));
            if number % bass_beats == 0 {
                let bass_end = stroke((number + bass_beats).min(strokes));
                touch.bass(voicing.bass, start, bass_end, 1.0);
            }
            let short = start + (end - start) * 3 / 4;
            let accent = if number % 2 == 0 { 1.0 } else { 0.94 };
            touch.upper(voicing, start, short, accent);
        }
    }
}

//! A guitar: chords that one hand can hold on six strings, strummed.

use super::part::{Groove, segments};
use super::{Card, Manner, Scene, Touch};
use crate::theory::{TICKS_PER_BEAT, Ticks};

pub(super) const CARD: Card = Card {
    id: "guitar",
    title: "Guitar",
    about: "Chords taken as one hand holds them on six strings, strummed on the beats.",
    difficulty: 0.2,
    fair: true,
    tempos: (40, 220),
    bassist: false,
    manner: Manner::Guitar,
    lay,
};

/// From string to string, in seconds: below the 10 ms at which the ear begins to hear notes
/// apart.
const STRUM: f32 = 0.007;

fn lay(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::straight(scene.setting.meter);
    let step = (STRUM * scene.tempo / 60.0 * TICKS_PER_BEAT as f32) as Ticks;
    for segment in segments(scene.setting, groove) {
        for (number, (start, end)) in segment.beats(groove).into_iter().enumerate() {
            let accent = if number == 0 { 1.0 } else { 0.85 };
            let short = start + (end - start) * 7 / 8;
            touch.bass(segment.voicing.bass, start, short, accent);
            for voice in 0..segment.voicing.upper.len() {
                let struck = start + step * (voice as Ticks + 1);
                if struck < short {
                    touch.voice(segment.voicing, voice, struck, short, accent);
                }
            }
        }
    }
}

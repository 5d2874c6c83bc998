//! Two-feel: the bass on every other beat, its fifth between, the chord in a syncopated
//! rhythm over it.

use super::part::{Groove, Segment, alternate, comp, segments};
use super::{Card, Manner, Scene, Touch};

pub(super) const CARD: Card = Card {
    id: "two-feel",
    title: "Two-feel",
    about: "A bass in half notes, root and fifth, and light comping.",
    difficulty: 0.3,
    fair: true,
    tempos: (56, 240),
    bassist: true,
    manner: Manner::Full,
    lay,
};

fn lay(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::swung(scene.setting.meter, scene.tempo);
    let segments = segments(scene.setting, groove);
    in_two(&segments, groove, touch);
    comp(&segments, groove, 1.0, touch);
}

/// A bass note on every other beat: the chord's own, then its fifth.
pub(super) fn in_two(segments: &[Segment], groove: Groove, touch: &mut Touch) {
    for segment in segments {
        let beats = segment.beats(groove);
        for (number, pair) in beats.chunks(2).enumerate() {
            let start = pair[0].0;
            let end = pair[pair.len() - 1].1;
            let pitch = if number % 2 == 0 {
                segment.voicing.bass
            } else {
                alternate(segment.chord, segment.voicing)
            };
            touch.bass(pitch, start, end, 1.0);
        }
    }
}

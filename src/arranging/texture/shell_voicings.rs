//! Shell voicings: over the bass only the notes that tell the chord.

use super::part::{Groove, segments};
use super::{Card, Manner, Scene, Touch};

pub(super) const CARD: Card = Card {
    id: "shell-voicings",
    title: "Shell voicings",
    about: "The bass and the few notes that tell the chord, its third and seventh above all.",
    difficulty: 0.2,
    fair: true,
    tempos: (30, 240),
    bassist: false,
    manner: Manner::Shell,
    lay,
};

fn lay(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::straight(scene.setting.meter);
    for segment in segments(scene.setting, groove) {
        touch.bass(segment.voicing.bass, segment.start, segment.end, 1.0);
        for pair in segment.beats(groove).chunks(2) {
            let (start, end) = (pair[0].0, pair[pair.len() - 1].1);
            let accent = if start == segment.start { 1.0 } else { 0.9 };
            touch.upper(segment.voicing, start, end, accent);
        }
    }
}

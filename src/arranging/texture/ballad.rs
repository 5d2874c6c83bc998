//! A ballad: held chords, a bass in two, brushes stirring.

use super::part::{Groove, segments, stir};
use super::two_feel::in_two;
use super::{Card, Manner, Scene, Touch};

pub(super) const CARD: Card = Card {
    id: "ballad",
    title: "Ballad",
    about: "Slow time: held chords over a bass in two, brushes stirring.",
    difficulty: 0.35,
    fair: true,
    tempos: (30, 92),
    bassist: true,
    manner: Manner::Full,
    lay,
};

fn lay(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::swung(scene.setting.meter, scene.tempo);
    let segments = segments(scene.setting, groove);
    in_two(&segments, groove, touch);
    for segment in &segments {
        touch.upper(segment.voicing, segment.start, segment.end, 1.0);
    }
    stir(scene.setting.length(), groove, touch);
}

//! A walking bass with comping.

use super::part::{Groove, comp, segments, walk};
use super::{Card, Manner, Scene, Touch};

pub(super) const CARD: Card = Card {
    id: "walking-bass",
    title: "Walking bass",
    about: "A bass that walks from chord to chord in quarter notes, comping above it.",
    difficulty: 0.5,
    fair: true,
    tempos: (66, 300),
    bassist: true,
    manner: Manner::Full,
    lay,
};

fn lay(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::swung(scene.setting.meter, scene.tempo);
    let segments = segments(scene.setting, groove);
    walk(&segments, groove, touch);
    comp(&segments, groove, 1.0, touch);
}

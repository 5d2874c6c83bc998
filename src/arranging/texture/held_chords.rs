//! Held chords: each chord struck once and held, again at every bar line it crosses.

use super::{Card, Manner, Scene, Touch};

pub(super) const CARD: Card = Card {
    id: "held-chords",
    title: "Held chords",
    about: "Every chord struck once and held; the plainest way to hear it.",
    difficulty: 0.0,
    fair: true,
    tempos: (30, 240),
    bassist: false,
    manner: Manner::Full,
    lay,
};

fn lay(scene: &Scene, touch: &mut Touch) {
    let setting = scene.setting;
    let bar = setting.meter.bar();
    for (span, _, voicing) in setting.parts() {
        let mut start = span.start;
        while start < span.end {
            let end = span.end.min((start / bar + 1) * bar);
            touch.bass(voicing.bass, start, end, 1.0);
            touch.upper(voicing, start, end, 1.0);
            start = end;
        }
    }
}

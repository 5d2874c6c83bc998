//! Stride: the left hand leaps between bass and chord, the right states the harmony and
//! answers it.

use super::part::{Groove, Segment, alternate, segments};
use super::{Card, Manner, Scene, Touch};

pub(super) const CARD: Card = Card {
    id: "stride",
    title: "Stride",
    about: "A leaping left hand, bass on one and three, chord on two and four.",
    difficulty: 0.4,
    fair: true,
    tempos: (60, 260),
    bassist: false,
    manner: Manner::Full,
    lay,
};

fn lay(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::swung(scene.setting.meter, scene.tempo);
    for segment in segments(scene.setting, groove) {
        left_hand(&segment, groove, touch);
        right_hand(&segment, groove, touch);
    }
}

fn left_hand(segment: &Segment, groove: Groove, touch: &mut Touch) {
    for (number, (start, end)) in segment.beats(groove).into_iter().enumerate() {
        let short = start + (end - start) * 4 / 5;
        match number % 4 {
            0 => touch.bass(segment.voicing.bass, start, short, 1.0),
            2 => {
                let pitch = alternate(segment.chord, segment.voicing);
                touch.bass(pitch, start, short, 0.95);
            }
            _ => {
                let top = segment.voicing.upper.len() - 1;
                for voice in 0..top.max(1) {
                    touch.voice(segment.voicing, voice, start, short, 0.85);
                }
            }
        }
    }
}

/// The whole chord on the first beat; the top voice answers after the second and third.
fn right_hand(segment: &Segment, groove: Groove, touch: &mut Touch) {
    let (_, first_beat) = segment.beats(groove)[0];
    touch.upper(segment.voicing, segment.start, first_beat, 1.0);
    let top = segment.voicing.upper.len() - 1;
    // A chord of one voice has none left to answer with: the left hand plays it.
    if top == 0 {
        return;
    }
    for (from, to) in [(3, 4), (4, 6)] {
        let start = segment.eighths(groove, from);
        let end = segment.eighths(groove, to);
        if start < end {
            touch.voice(segment.voicing, top, start, end, 0.95);
        }
    }
}

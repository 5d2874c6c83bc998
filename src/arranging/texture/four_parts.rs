//! Four parts, sustained as strings would: three voices over a bass, bound from chord to
//! chord, with a passing note where an inner voice moves by a third.

use super::part::{Groove, Segment, passing, segments};
use super::{Card, Manner, Scene, Touch};
use crate::arranging::setting::Setting;
use crate::theory::{Pitch, TICKS_PER_BEAT};

pub(super) const CARD: Card = Card {
    id: "four-parts",
    title: "Four parts",
    about: "Three voices over a bass, sustained and led smoothly, as strings would play.",
    difficulty: 0.3,
    fair: true,
    tempos: (30, 132),
    bassist: false,
    manner: Manner::Full,
    lay,
};

/// How long a passing note lasts.
const PASSING: u32 = TICKS_PER_BEAT / 2;

fn lay(scene: &Scene, touch: &mut Touch) {
    let setting = scene.setting;
    for segment in segments(setting, Groove::straight(setting.meter)) {
        let (start, end) = (segment.start, segment.end);
        let opens = start == setting.spans[segment.index].start;
        let accent = if opens { 1.0 } else { 0.9 };
        touch.bass(segment.voicing.bass, start, end, accent);
        for voice in 0..segment.voicing.upper.len() {
            // Only where it is short against the chord, which would else be another one.
            let turn = (end - start >= 3 * TICKS_PER_BEAT).then(|| end - PASSING);
            match turn.zip(on_the_way(setting, &segment, voice)) {
                Some((turn, between)) => {
                    touch.voice(segment.voicing, voice, start, turn, accent);
                    touch.line(voice as u8, between, turn, end, 0.6);
                }
                None => touch.voice(segment.voicing, voice, start, end, accent),
            }
        }
    }
}

/// The passing note of an inner voice before the next chord, if it moves by a third.
fn on_the_way(setting: &Setting, segment: &Segment, voice: usize) -> Option<Pitch> {
    let here = &segment.voicing.upper;
    let next = &setting.voicings.get(segment.index + 1)?.upper;
    let is_inner = voice + 1 < here.len() && here.len() == next.len();
    let is_last = segment.end == setting.spans[segment.index].end;
    (is_inner && is_last)
        .then(|| passing(segment.chord, here[voice], next[voice]))
        .flatten()
}

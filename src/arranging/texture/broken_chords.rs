//! Broken chords: the bass with the lowest voice, the others after each other, all within
//! the first beat; then the hand goes on up and down.

use super::part::{Groove, Segment, segments};
use super::{Card, Scene, Touch};
use crate::theory::Ticks;

pub(super) const CARD: Card = Card {
    id: "broken-chords",
    title: "Broken chords",
    about: "The notes of each chord after each other, from the bass up.",
    difficulty: 0.25,
    fair: true,
    tempos: (30, 160),
    bassist: false,
    manner: super::Manner::Full,
    lay,
};

fn lay(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::straight(scene.setting.meter);
    for segment in segments(scene.setting, groove) {
        touch.bass(segment.voicing.bass, segment.start, segment.end, 1.0);
        break_up(&segment, groove, touch);
    }
}

/// The first beat takes all voices; each later one the way back down, then up again. A voice
/// rings until the hand comes back to it, as under a pedal.
fn break_up(segment: &Segment, groove: Groove, touch: &mut Touch) {
    let strokes = strokes(segment, groove);
    for (at, stroke) in strokes.iter().enumerate() {
        let again = strokes[at + 1..].iter().find(|next| next.0 == stroke.0);
        let until = again.map_or(segment.end, |next| next.1);
        let (voice, start, accent) = *stroke;
        touch.voice(segment.voicing, voice, start, until, accent);
    }
}

/// Each voice that is struck, when, and how strongly.
fn strokes(segment: &Segment, groove: Groove) -> Vec<(usize, Ticks, f32)> {
    let count = segment.voicing.upper.len();
    let up: Vec<usize> = (0..count).collect();
    let down: Vec<usize> = (0..count).rev().skip(1).collect();
    let middle: Vec<usize> = (1..count).collect();
    let mut strokes = Vec::new();
    for (number, (start, end)) in segment.beats(groove).into_iter().enumerate() {
        let order = match number {
            0 => &up,
            odd if odd % 2 == 1 => &down,
            _ => &middle,
        };
        let parts = order.len().max(2) as Ticks;
        let accent = if number == 0 { 1.0 } else { 0.86 };
        for (index, voice) in order.iter().enumerate() {
            let place = start + (end - start).min(groove.beat) * index as Ticks / parts;
            strokes.push((*voice, place, accent));
        }
    }
    strokes
}

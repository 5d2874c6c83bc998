//! A guitar: chords that one hand can hold on six strings, strummed.

use std::ops::Range;

use super::part::{Groove, segments};
use super::{Card, Manner, Scene, Touch};
use crate::arranging::fretboard::can_hold;
use crate::arranging::voicing::Voicing;
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
            // What one hand cannot hold at once it plays one after the other, within the beat.
            let grips = grips(segment.voicing);
            let beat = (end - start).min(groove.beat);
            let grip = |number: usize| start + beat * number as Ticks / grips.len() as Ticks;
            for (number, voices) in grips.iter().enumerate() {
                let from = grip(number);
                let is_last = number + 1 == grips.len();
                let until = if is_last { short } else { grip(number + 1) };
                for (string, voice) in voices.clone().enumerate() {
                    let struck = from + step * string as Ticks;
                    if struck >= until {
                        continue;
                    }
                    match voice.checked_sub(1) {
                        None => touch.bass(segment.voicing.bass, struck, until, accent),
                        Some(upper) => touch.voice(segment.voicing, upper, struck, until, accent),
                    }
                }
            }
        }
    }
}

/// The voices, counted from the bass as 0, in as few grips as a hand needs for them: all at
/// once, or the bass and then the others, those in as many grips as they need.
fn grips(voicing: &Voicing) -> Vec<Range<usize>> {
    let midi: Vec<i8> = voicing.pitches().map(|pitch| pitch.midi() as i8).collect();
    let holds = |voices: Range<usize>| can_hold(i32::from(midi[voices.start]), &midi[voices][1..]);
    let first = |to| -> Vec<Range<usize>> { std::iter::once(0..to).collect() };
    if holds(0..midi.len()) {
        return first(midi.len());
    }
    let mut grips = first(1);
    let mut from = 1;
    while from < midi.len() {
        let fits = |to: &usize| holds(from..*to);
        let to = (from + 1..=midi.len()).rev().find(fits).unwrap_or(from + 1);
        grips.push(from..to);
        from = to;
    }
    grips
}

#[cfg(test)]
mod tests {
    use crate::arranging::fretboard::can_hold;
    use crate::arranging::{Arrangement, Texture, arrange};
    use crate::theory::{BareSix, Key, Line, Meter};

    #[test]
    fn a_hand_holds_whatever_sounds_at_once() {
        let text = "I V9/3 V9/5 V13 V7b9/3 imaj7/b3 imaj7/5 V7#9/b7 iiø7/b5 ii7/b3 Iadd6/3 I/5 \
                    V13/3 V9/b7 Imaj7/7 viio7/4 V7sus4 It6 Fr6 Ger6 I";
        // Each word by itself: what cannot be written is no inversion.
        let words = text
            .split_whitespace()
            .filter(|word| Line::read(word, Meter::FourFour, BareSix::AddedSixth).is_ok());
        let text = words.collect::<Vec<_>>().join(" | ");
        assert!(text.matches('|').count() >= 14, "{text}");
        let line = Line::read(&text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        for key in Key::everyday() {
            for variation in 0..4 {
                let request = Arrangement {
                    texture: Texture::Guitar,
                    tempo: 90.0,
                    variation,
                };
                let passage = arrange(&line, key, &request).expect("chords near the key");
                for note in &passage.notes {
                    let mut held: Vec<i32> = passage
                        .notes
                        .iter()
                        .filter(|other| {
                            other.start <= note.start && note.start < other.start + other.length
                        })
                        .map(|other| other.pitch.midi())
                        .collect();
                    held.sort_unstable();
                    let upper: Vec<i8> = held[1..].iter().map(|midi| *midi as i8).collect();
                    assert!(can_hold(held[0], &upper), "{key}: {held:?}");
                }
            }
        }
    }
}

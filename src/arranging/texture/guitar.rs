//! A guitar: chords that one hand can hold on six strings, strummed.

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
            // What one hand cannot hold at once it plays one after the other: the bass, then
            // the chord from the middle of the beat.
            let middle = start + (end - start).min(groove.beat) / 2;
            let (bass_end, chord) = if is_held(segment.voicing) {
                (short, start)
            } else {
                (middle, middle)
            };
            touch.bass(segment.voicing.bass, start, bass_end, accent);
            for voice in 0..segment.voicing.upper.len() {
                let struck = chord + step * (voice as Ticks + 1);
                if struck < short {
                    touch.voice(segment.voicing, voice, struck, short, accent);
                }
            }
        }
    }
}

/// Whether a hand holds the bass and the upper voices together.
fn is_held(voicing: &Voicing) -> bool {
    let upper: Vec<i8> = voicing
        .upper
        .iter()
        .map(|pitch| pitch.midi() as i8)
        .collect();
    can_hold(voicing.bass.midi(), &upper)
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

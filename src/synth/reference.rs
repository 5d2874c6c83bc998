//! What to tune to: a single note, and a drone that holds a key in the ear.

use crate::arranging::{Note, Passage, Span, TICKS_PER_BEAT, Ticks, Voice};
use crate::theory::{IntervalClass, Pitch, PitchClass};

/// The reference tunings that a listener may choose, A4 in hertz.
pub const REFERENCE: std::ops::RangeInclusive<f64> = 430.0..=450.0;

/// The lowest tonic of a drone: the E string of a guitar.
const LOWEST: i32 = 40;

/// One note held for `seconds`, such as A4 to tune an instrument by.
#[must_use]
pub fn tuning_note(pitch: Pitch, seconds: u32) -> Passage {
    held(&[(pitch, 0.6, Voice::Upper(0))], seconds)
}

/// The tonic in two octaves with its fifth, soft, for `seconds`: it says which note is home
/// and leaves major or minor open.
#[must_use]
pub fn drone(tonic: PitchClass, seconds: u32) -> Passage {
    let low = Pitch::at_or_above(tonic, LOWEST);
    let fifth = Pitch::at_or_above(tonic.up(IntervalClass::PERFECT_FIFTH), low.midi());
    let high = Pitch::new(tonic, low.octave + 1);
    held(
        &[
            (low, 0.6, Voice::Bass),
            (fifth, 0.4, Voice::Upper(0)),
            (high, 0.5, Voice::Upper(1)),
        ],
        seconds,
    )
}

fn held(pitches: &[(Pitch, f32, Voice)], seconds: u32) -> Passage {
    // At sixty beats a minute a beat is a second.
    let length: Ticks = TICKS_PER_BEAT * seconds;
    let notes = pitches.iter().map(|(pitch, strength, voice)| Note {
        start: 0,
        length,
        pitch: *pitch,
        strength: *strength,
        voice: *voice,
    });
    Passage {
        tempo: 60.0,
        notes: notes.collect(),
        chords: vec![Span {
            chord: 0,
            start: 0,
            end: length,
        }],
        length,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drone_is_tonic_fifth_and_octave() {
        for (tonic, expected) in [
            ("E", "E2 B2 E3"),
            ("Eb", "Eb3 Bb3 Eb4"),
            ("F#", "F#2 C#3 F#3"),
        ] {
            let passage = drone(tonic.parse().expect("a note"), 10);
            let notes: Vec<String> = passage.notes.iter().map(|n| n.pitch.to_string()).collect();
            assert_eq!(notes.join(" "), expected);
            assert!((passage.seconds(passage.length) - 10.0).abs() < 1e-9);
        }
    }
}

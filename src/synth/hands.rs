//! How players take what is written: they strike again what would fade away, and no two
//! fingers fall at the very same time. Neither depends on the harmony.

use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;

use super::band::Band;
use crate::arranging::{Note, Passage, Voice};
use crate::theory::TICKS_PER_BEAT;

/// Seconds by which a stroke comes late at most, and by which a finger comes after the first
/// one. Pianists' chords are apart by some 10 ms (Repp, J. Acoust. Soc. Am. 100, 1996); tones
/// begin to be heard apart at 10 to 20 ms (Rasch 1979).
const LATE: f64 = 0.008;
const APART: f64 = 0.006;

/// A note struck again is softer by 1 dB.
const AGAIN: f32 = 0.89;

/// The passage as the players of `band` strike it.
pub(super) fn struck(passage: &Passage, band: &Band) -> Passage {
    let notes = passage.notes.iter();
    let mut notes: Vec<Note> = notes
        .flat_map(|note| strokes(passage, note, band))
        .collect();
    notes.sort_by_key(|note| note.start);
    Passage {
        notes,
        ..passage.clone()
    }
}

/// A note, struck again on beats if it would fade away: in as few even parts as last, and
/// the last of them to its written end.
fn strokes(passage: &Passage, note: &Note, band: &Band) -> Vec<Note> {
    let lasts = |length| passage.seconds(length) <= band.lasts(note.voice);
    let beats = (note.length + TICKS_PER_BEAT / 2) / TICKS_PER_BEAT;
    if lasts(note.length) || beats < 2 {
        return vec![*note];
    }
    let even = (1..beats).rev().filter(|each| beats.is_multiple_of(*each));
    let fits = even.clone().find(|each| lasts(each * TICKS_PER_BEAT));
    let step = fits.unwrap_or(1) * TICKS_PER_BEAT;
    let strokes = beats * TICKS_PER_BEAT / step;
    // What is written ends a breath before the beat; so does each stroke.
    let breath = (beats * TICKS_PER_BEAT).saturating_sub(note.length);
    (0..strokes)
        .map(|stroke| {
            let after = stroke * step;
            let is_last = stroke + 1 == strokes;
            let rest = note.length - after;
            Note {
                start: note.start + after,
                length: if is_last { rest } else { step - breath },
                strength: note.strength * if stroke == 0 { 1.0 } else { AGAIN },
                ..*note
            }
        })
        .collect()
}

/// Seconds by which a note comes after its written time.
pub(super) fn lateness(note: &Note, seed: u64) -> f64 {
    let (hand, finger) = match note.voice {
        // Drummers stray as they are written.
        Voice::Drum(_) => return 0.0,
        Voice::Bass => (1, 0),
        Voice::Upper(voice) => (0, u64::from(voice) + 1),
    };
    let draw = |of: u64, most: f64| {
        let place = u64::from(note.start) * 64 + of;
        let seed = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ place;
        ChaCha8Rng::seed_from_u64(seed).random_range(0.0..most)
    };
    // The first stroke of all begins the time.
    let stroke = if note.start == 0 {
        0.0
    } else {
        draw(hand, LATE)
    };
    stroke + draw(2 + finger, APART)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arranging::{Arrangement, Texture, arrange};
    use crate::synth::{built_in, find};
    use crate::theory::{BareSix, Line, Meter, Ticks};

    fn passage(texture: Texture, tempo: f32) -> Passage {
        let line = Line::read("Imaj7 | ii7 V7 | I", Meter::FourFour, BareSix::AddedSixth);
        let request = Arrangement {
            texture,
            tempo,
            variation: 3,
        };
        arrange(
            &line.expect("a line"),
            "F".parse().expect("a key"),
            &request,
        )
        .expect("a passage")
    }

    fn end(note: &Note) -> Ticks {
        note.start + note.length
    }

    #[test]
    fn what_fades_is_struck_again_and_nothing_else() {
        let slow = passage(Texture::HeldChords, 60.0);
        for sound in built_in() {
            let band = Band::for_passage(sound, &slow);
            let taken = struck(&slow, &band);
            let longest = |notes: &[Note]| {
                let seconds = notes.iter().map(|note| slow.seconds(note.length));
                seconds.fold(0.0, f64::max)
            };
            if sound.instrument.shape.restrike.is_some() {
                assert!(longest(&taken.notes) <= 2.0, "{}", sound.id);
                // Each whole note twice, the halves of two seconds once.
                assert_eq!(taken.notes.len(), slow.notes.len() * 3 / 2, "{}", sound.id);
            } else {
                let upper = |note: &&Note| note.voice != Voice::Bass;
                let of = |all: &Passage| all.notes.iter().filter(upper).count();
                assert_eq!(of(&taken), of(&slow), "{}", sound.id);
            }
            let ends = |all: &Passage| all.notes.iter().map(end).max();
            assert_eq!(ends(&taken), ends(&slow), "{}", sound.id);
        }
    }

    #[test]
    fn quick_notes_are_left_as_they_are() {
        let sound = find("archtop-guitar").expect("a built-in sound");
        for texture in [Texture::FourToTheBar, Texture::BandWithMelody] {
            let quick = passage(texture, 180.0);
            let taken = struck(&quick, &Band::for_passage(sound, &quick));
            assert_eq!(taken.notes.len(), quick.notes.len());
        }
    }

    #[test]
    fn fingers_fall_apart_by_less_than_the_ear_takes_for_two() {
        let written = passage(Texture::Band, 120.0);
        let times = |seed| -> Vec<f64> {
            let late = written.notes.iter().map(|note| lateness(note, seed));
            late.collect()
        };
        assert_eq!(times(1), times(1));
        assert_ne!(times(1), times(2));
        for (note, late) in written.notes.iter().zip(times(1)) {
            if matches!(note.voice, Voice::Drum(_)) {
                assert!(late == 0.0, "{note:?}");
            }
            assert!((0.0..LATE + APART).contains(&late), "{note:?}: {late}");
            let with = |other: &&Note| other.start == note.start && other.voice != note.voice;
            let upper = |other: &&Note| matches!(other.voice, Voice::Upper(_));
            for other in written.notes.iter().filter(with).filter(upper) {
                let apart = (lateness(other, 1) - late).abs();
                if upper(&note) {
                    assert!(
                        apart > 0.0 && apart < APART,
                        "{note:?} and {other:?}: {apart}"
                    );
                }
            }
        }
    }
}

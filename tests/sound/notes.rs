//! Passages to measure.

use plagal::arranging::{Note, Passage, Span, TICKS_PER_BEAT, Ticks, Voice};
use plagal::synth::{Band, Renderer, Settings, Sound};
use plagal::theory::{Pitch, PitchClass};

/// A pitch of that MIDI number, spelled with at most one sign.
pub(crate) fn pitch(midi: i32) -> Pitch {
    let class = PitchClass::from_fifths(((midi * 7 + 5).rem_euclid(12) - 5) as i16);
    Pitch::at_or_above(class, midi)
}

/// A tempo at which a beat is a second.
pub(crate) const SECOND: Ticks = TICKS_PER_BEAT;

/// One note, `length` ticks at one beat a second.
pub(crate) fn single(midi: i32, length: Ticks, strength: f32) -> Passage {
    Passage {
        tempo: 60.0,
        notes: vec![Note {
            start: 0,
            length,
            pitch: pitch(midi),
            strength,
            voice: Voice::Upper(0),
        }],
        chords: Vec::new(),
        bassist: false,
        length,
    }
}

/// Seven chords in G, bass first, two beats each.
///
/// IVadd6 ivadd6 Iadd6 V7/ii V7/V V7 Iadd6, spelled out by hand.
pub(crate) const CHORDS: [[i32; 5]; 7] = [
    [48, 64, 67, 69, 72],
    [48, 63, 67, 69, 72],
    [43, 62, 64, 67, 71],
    [40, 62, 68, 71, 74],
    [45, 61, 67, 69, 73],
    [50, 60, 66, 69, 72],
    [43, 59, 64, 67, 74],
];

/// Seconds that each chord lasts in [`phrase`].
pub(crate) const CHORD_SECONDS: f64 = 1.5;

pub(crate) fn phrase() -> Passage {
    let length = 2 * TICKS_PER_BEAT;
    let mut notes = Vec::new();
    let mut chords = Vec::new();
    for (chord, midis) in CHORDS.iter().enumerate() {
        let start = chord as Ticks * length;
        for (part, midi) in midis.iter().enumerate() {
            let (voice, strength) = match part {
                0 => (Voice::Bass, 0.68),
                part => (Voice::Upper(part as u8 - 1), 0.6),
            };
            notes.push(Note {
                start,
                length,
                pitch: pitch(*midi),
                strength,
                voice,
            });
        }
        chords.push(Span {
            chord,
            start,
            end: start + length,
        });
    }
    Passage {
        tempo: 80.0,
        notes,
        length: length * CHORDS.len() as Ticks,
        chords,
        bassist: false,
    }
}

/// The mean of both sides before levelling.
pub(crate) fn mono(passage: &Passage, sound: &Sound, settings: &Settings) -> Vec<f64> {
    let mut renderer = Renderer::new(passage, &Band::of(sound), settings);
    let mut samples = vec![0.0; 2 * renderer.frames()];
    renderer.fill(&mut samples);
    samples
        .chunks_exact(2)
        .map(|frame| f64::from(frame[0] + frame[1]) / 2.0)
        .collect()
}

/// The playable MIDI numbers of a sound.
pub(crate) fn range(sound: &Sound) -> std::ops::RangeInclusive<i32> {
    sound.range.0.midi()..=sound.range.1.midi()
}

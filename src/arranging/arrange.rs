//! From a line in a key to a passage.

use super::passage::{Note, Passage, Voice};
use super::register::{BASS_REACH, UPPER};
use super::setting::Setting;
use super::texture::Texture;
use crate::theory::{IntervalClass, Key, Line, Pitch, TICKS_PER_BEAT, Ticks, TooRemote};

/// How a line is to be laid out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arrangement {
    /// How its chords are played.
    pub texture: Texture,
    /// Quarter notes a minute, 30 to 300.
    pub tempo: f32,
    /// The same number gives the same passage on every machine; another number another
    /// one, as good.
    pub variation: u64,
}

/// Arranges a line in a key.
///
/// # Errors
/// If a numeral has no notes in the key.
pub fn arrange(line: &Line, key: Key, request: &Arrangement) -> Result<Passage, TooRemote> {
    let manner = request.texture.card().manner;
    let setting = Setting::in_manner(line, key, request.variation, manner)?;
    let notes = request
        .texture
        .lay(&setting, request.tempo, request.variation);
    Ok(Passage {
        tempo: request.tempo,
        notes,
        length: setting.length(),
        chords: setting.spans,
        bassist: request.texture.card().bassist,
    })
}

/// The tonic of a key over `beats` beats, with its fifth and octave and no third, struck
/// again every four beats.
#[must_use]
pub fn tonic_drone(key: Key, tempo: f32, beats: u32) -> Passage {
    let length = beats * TICKS_PER_BEAT;
    let tonic = key.tonic();
    let fifth = tonic.up(IntervalClass::PERFECT_FIFTH);
    let bass = Pitch::at_or_above(tonic, *BASS_REACH.start());
    let middle = Pitch::at_or_above(fifth, *UPPER.start());
    let top = Pitch::at_or_above(tonic, middle.midi());
    let voices = [
        (Voice::Bass, bass, 0.6),
        (Voice::Upper(0), middle, 0.45),
        (Voice::Upper(1), top, 0.45),
    ];
    let strokes = (0..beats).step_by(4).map(|beat| beat * TICKS_PER_BEAT);
    let notes = strokes.flat_map(|start| {
        let until: Ticks = (start + 4 * TICKS_PER_BEAT).min(length);
        voices.map(|(voice, pitch, strength)| Note {
            start,
            length: until - start,
            pitch,
            strength,
            voice,
        })
    });
    Passage {
        tempo,
        notes: notes.collect(),
        chords: Vec::new(),
        length,
        bassist: false,
    }
}

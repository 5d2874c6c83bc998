//! The player's hand: how strong and how long each note is.

use crate::arranging::chance::{Chance, Purpose};
use crate::arranging::passage::{Drum, Note, Voice};
use crate::arranging::voicing::Voicing;
use crate::theory::{Pitch, PitchClass, TICKS_PER_BEAT, Ticks};

/// Strength of an inner voice; the bass lies 2.5 dB and the top voice 1.5 dB above it.
const INNER: f32 = 0.5;
const BASS: f32 = 0.5 * 1.333_521;
const TOP: f32 = 0.5 * 1.188_502;

/// Silence before what follows, so that a chord that repeats a note is heard to begin.
const BREATH: Ticks = TICKS_PER_BEAT / 24;

/// Stands where a note of a drum has its pitch.
const UNPITCHED: Pitch = Pitch::new(PitchClass::C, 4);

/// Collects notes and gives each its strength. How a note varies depends on the variation,
/// its time and its voice alone, never on the harmony.
pub(super) struct Touch {
    variation: u64,
    humour: Chance,
    notes: Vec<Note>,
}

impl Touch {
    pub(super) fn new(variation: u64) -> Self {
        Self {
            variation,
            humour: Chance::new(variation, Purpose::Touch),
            notes: Vec::new(),
        }
    }

    /// A bass note from `start` until just before `end`, `accent` times its ordinary strength.
    pub(super) fn bass(&mut self, pitch: Pitch, start: Ticks, end: Ticks, accent: f32) {
        self.note(Voice::Bass, pitch, (start, end), BASS * accent);
    }

    /// The upper voices together from `start` until just before `end`.
    pub(super) fn upper(&mut self, voicing: &Voicing, start: Ticks, end: Ticks, accent: f32) {
        let highest = voicing.upper.len().saturating_sub(1);
        for (index, pitch) in voicing.upper.iter().enumerate() {
            let strength = if index == highest { TOP } else { INNER };
            let voice = Voice::Upper(index as u8);
            self.note(voice, *pitch, (start, end), strength * accent);
        }
    }

    /// One of the upper voices by itself.
    pub(super) fn voice(
        &mut self,
        voicing: &Voicing,
        voice: usize,
        start: Ticks,
        end: Ticks,
        accent: f32,
    ) {
        let is_top = voice + 1 == voicing.upper.len();
        let strength = if is_top { TOP } else { INNER };
        let number = Voice::Upper(voice as u8);
        self.note(
            number,
            voicing.upper[voice],
            (start, end),
            strength * accent,
        );
    }

    /// A note of a line that is no part of a voicing, as strong as a top voice.
    pub(super) fn line(&mut self, voice: u8, pitch: Pitch, start: Ticks, end: Ticks, accent: f32) {
        self.note(Voice::Upper(voice), pitch, (start, end), TOP * accent);
    }

    pub(super) fn drum(&mut self, drum: Drum, start: Ticks, end: Ticks, strength: f32) {
        self.note(Voice::Drum(drum), UNPITCHED, (start, end), strength);
    }

    /// What one of the players draws its choices from.
    pub(super) fn chance(&self, purpose: Purpose) -> Chance {
        Chance::new(self.variation, purpose)
    }

    fn note(&mut self, voice: Voice, pitch: Pitch, (start, end): (Ticks, Ticks), strength: f32) {
        // At most 3 percent either way, a quarter of a decibel.
        self.humour.go_to(u64::from(start) * 16 + seat(voice));
        let humanised = strength * (1.0 + (self.humour.below(65) - 32) as f32 / 1024.0);
        let whole = end - start;
        self.notes.push(Note {
            start,
            length: whole - BREATH.min(whole / 8),
            pitch,
            strength: humanised.clamp(0.0, 1.0),
            voice,
        });
    }

    pub(super) fn into_notes(mut self) -> Vec<Note> {
        self.notes.sort_by_key(|note| note.start);
        self.notes
    }
}

/// A number of its own for each voice, below 16 for all that sound together.
fn seat(voice: Voice) -> u64 {
    match voice {
        Voice::Bass => 0,
        Voice::Drum(drum) => 1 + drum as u64,
        Voice::Upper(number) => 6 + u64::from(number),
    }
}

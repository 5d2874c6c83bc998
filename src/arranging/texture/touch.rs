//! The player's hand: how strong and how long each note is.

use crate::arranging::chance::{Chance, Purpose};
use crate::arranging::passage::{Note, Voice};
use crate::arranging::voicing::Voicing;
use crate::theory::{Pitch, TICKS_PER_BEAT, Ticks};

/// Strength of an inner voice; the bass lies 2.5 dB and the top voice 1.5 dB above it.
const INNER: f32 = 0.5;
const BASS: f32 = 0.5 * 1.333_521;
const TOP: f32 = 0.5 * 1.188_502;

/// Silence before what follows, so that a chord that repeats a note is heard to begin.
const BREATH: Ticks = TICKS_PER_BEAT / 24;

/// Collects notes and gives each its strength. What varies depends on the variation and
/// on the number of notes before alone, never on the harmony.
pub(super) struct Touch {
    chance: Chance,
    notes: Vec<Note>,
}

impl Touch {
    pub(super) fn new(variation: u64) -> Self {
        Self {
            chance: Chance::new(variation, Purpose::Touch),
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

    fn note(&mut self, voice: Voice, pitch: Pitch, (start, end): (Ticks, Ticks), strength: f32) {
        // At most 3 percent either way, a quarter of a decibel.
        let humanised = strength * (1.0 + (self.chance.below(65) - 32) as f32 / 1024.0);
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

//! Who plays what: the instruments of a passage's parts.

use super::catalogue::{double_bass, kit};
use super::sound::{Instrument, Kit, Sound};
use crate::arranging::{BASS_REACH, Drum, Note, Passage, Voice};

/// The instruments that sound a passage.
#[derive(Clone, Copy, Debug)]
pub struct Band<'a> {
    /// Plays the upper voices.
    pub sound: &'a Sound,
    /// Plays the bass; the same sound as the upper voices for a keyboard or a guitar alone.
    pub bass: &'a Sound,
    /// Plays percussion.
    pub kit: &'a Kit,
}

impl<'a> Band<'a> {
    /// One sound for all pitches, and the built-in kit.
    #[must_use]
    pub fn of(sound: &'a Sound) -> Self {
        Self {
            sound,
            bass: sound,
            kit: kit(),
        }
    }

    /// The players of `passage`: a double bass where the passage has a bassist or
    /// percussion, or where the sound does not reach down to the bass; else one sound plays
    /// everything.
    #[must_use]
    pub fn for_passage(sound: &'a Sound, passage: &Passage) -> Self {
        let rhythm = |note: &Note| matches!(note.voice, Voice::Drum(_));
        let reaches = sound.range.0.midi() <= *BASS_REACH.start();
        if passage.bassist || !reaches || passage.notes.iter().any(rhythm) {
            Self::of(sound).with_bass(double_bass())
        } else {
            Self::of(sound)
        }
    }

    /// The same band with other percussion.
    #[must_use]
    pub fn with_kit(self, kit: &'a Kit) -> Self {
        Self { kit, ..self }
    }

    /// The same band with another bass.
    #[must_use]
    pub fn with_bass(self, bass: &'a Sound) -> Self {
        Self { bass, ..self }
    }

    /// Seconds for which an instrument may hold a note before it is struck again.
    pub(super) fn lasts(&self, voice: Voice) -> f64 {
        let restrike = match voice {
            Voice::Bass => self.bass.instrument.shape.restrike,
            Voice::Upper(_) => self.sound.instrument.shape.restrike,
            Voice::Drum(_) => None,
        };
        restrike.unwrap_or(f64::INFINITY)
    }

    /// The instruments, each with the seats it takes.
    pub(super) fn instruments(&self) -> Vec<(&'a Instrument, Vec<Seat>)> {
        let mut instruments = if self.bass == self.sound {
            vec![(&self.sound.instrument, vec![Seat::Upper, Seat::Bass])]
        } else {
            vec![
                (&self.sound.instrument, vec![Seat::Upper]),
                (&self.bass.instrument, vec![Seat::Bass]),
            ]
        };
        for (drum, instrument) in &self.kit.pieces {
            instruments.push((instrument, vec![Seat::Drum(*drum)]));
        }
        instruments
    }
}

/// A place in the band.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Seat {
    Upper,
    Bass,
    Drum(Drum),
}

impl Seat {
    pub(super) fn of(voice: Voice) -> Self {
        match voice {
            Voice::Bass => Self::Bass,
            Voice::Upper(_) => Self::Upper,
            Voice::Drum(drum) => Self::Drum(drum),
        }
    }
}

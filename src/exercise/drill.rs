//! From a checked exercise to the settings of a drill.

use super::definition::{Answers, Ask, Exercise, KeyGiven};
use crate::quiz::{self, Asked, Drill};
use crate::theory::BareSix;

impl Exercise {
    /// The drill that the exercise defines, a bare six in typed answers read as `six`
    /// says.
    ///
    /// # Panics
    /// If the exercise was checked against kinds or textures that do not exist.
    #[must_use]
    pub fn drill(&self, six: BareSix) -> Drill {
        let textures = self
            .textures
            .iter()
            .map(|id| id.parse().expect("textures are checked"));
        Drill {
            exercise: self.id.clone(),
            kind: self.kind.parse().expect("kinds are checked"),
            asked: match self.ask {
                Ask::EveryChord => Asked::EveryChord,
                Ask::ChordsOutOfKey => Asked::ChordsOutOfKey,
                Ask::MarkedChord => Asked::MarkedChord,
            },
            devices: self.devices.clone(),
            never: self.never.clone(),
            keys: self.keys.clone(),
            bars: self.bars.clone(),
            meter: self.meter,
            tempo: *self.tempo.start() as u16..=*self.tempo.end() as u16,
            key_given: match self.key_given {
                KeyGiven::Cadence => quiz::KeyGiven::Cadence,
                KeyGiven::Tonic => quiz::KeyGiven::Tonic,
                KeyGiven::Nothing => quiz::KeyGiven::Nothing,
            },
            answers: match self.answers {
                Answers::Typed => 0,
                Answers::Choices(count) => usize::from(count),
            },
            questions: self.questions,
            sounds: self.sounds.clone(),
            textures: textures.collect(),
            six,
        }
    }
}

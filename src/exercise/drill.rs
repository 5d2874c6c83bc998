//! From a checked exercise to the settings of a drill.

use super::definition::Exercise;
use crate::quiz::Drill;
use crate::theory::BareSix;

impl Exercise {
    /// The drill that the exercise defines, a bare six in typed answers read as `six`
    /// says.
    #[must_use]
    pub fn drill(&self, six: BareSix) -> Drill {
        Drill {
            exercise: self.id.clone(),
            kind: self.kind,
            asked: self.asked,
            devices: self.devices.clone(),
            never: self.never.clone(),
            keys: self.keys.clone(),
            bars: self.bars.clone(),
            meter: self.meter,
            tempo: self.tempo.clone(),
            key_given: self.key_given,
            answers: self.answers,
            questions: self.questions,
            sounds: self.sounds.clone(),
            textures: self.textures.clone(),
            six,
        }
    }
}

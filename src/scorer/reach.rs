//! What exemplars a drill can make, and how hard they are in the journal's terms.

use crate::journal::{Difficulty, KeySetting};
use crate::quiz::{Drill, Hardness, KeyGiven};

/// Between what bounds exemplars can be made easier or harder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// The least in every respect.
    pub easiest: Difficulty,
    /// The most in every respect.
    pub hardest: Difficulty,
    /// How the key is made known.
    pub key_setting: KeySetting,
    /// How many answers are on offer; 0 when they are typed.
    pub answers: u32,
}

impl Reach {
    /// What a drill can make. How near the wrong answers lie is not chosen.
    #[must_use]
    pub fn of(drill: &Drill) -> Self {
        let (easiest, hardest) = Hardness::bounds(drill);
        Self {
            easiest: difficulty(easiest, None),
            hardest: difficulty(hardest, None),
            key_setting: key_setting(drill.key_given),
            answers: drill.answers as u32,
        }
    }

    /// A difficulty between the bounds: 0 the easiest, 1 the hardest.
    pub(super) fn at(&self, level: f64) -> Difficulty {
        let between = |low: f64, high: f64| low + level * (high - low);
        let (easy, hard) = (self.easiest, self.hardest);
        Difficulty {
            inversion: between(easy.inversion, hard.inversion),
            texture: between(easy.texture, hard.texture),
            tempo: between(easy.tempo, hard.tempo),
            similarity: between(easy.similarity, hard.similarity),
        }
    }
}

impl Default for Reach {
    /// Everything from the easiest to the hardest, after a cadence, nine answers on offer.
    fn default() -> Self {
        let all = |feature| Difficulty {
            inversion: feature,
            texture: feature,
            tempo: feature,
            similarity: feature,
        };
        Self {
            easiest: all(0.0),
            hardest: all(1.0),
            key_setting: KeySetting::Cadence,
            answers: 9,
        }
    }
}

/// What the journal says of a question's hardness; where nobody can tell how near the wrong
/// answers lie, they count as middling.
#[must_use]
pub fn difficulty(hardness: Hardness, nearness: Option<f64>) -> Difficulty {
    let middling = Difficulty::default();
    Difficulty {
        inversion: hardness.inversion,
        texture: hardness.texture,
        tempo: hardness.tempo,
        similarity: nearness.unwrap_or(middling.similarity),
    }
}

/// The journal's word for how the key was given.
#[must_use]
pub fn key_setting(given: KeyGiven) -> KeySetting {
    match given {
        KeyGiven::Cadence => KeySetting::Cadence,
        KeyGiven::Tonic => KeySetting::Tonic,
        KeyGiven::Nothing => KeySetting::Nothing,
    }
}

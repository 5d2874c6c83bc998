//! What the learner or a teacher asks of the choice.

use crate::devices::DeviceId;
use crate::journal::{Difficulty, KeySetting};

/// Wishes that the choice obeys.
#[derive(Clone, Debug, PartialEq)]
pub struct Wishes {
    /// Asked as often as the weakest device, whatever their standing.
    pub pinned: Vec<DeviceId>,
    /// Never asked.
    pub excluded: Vec<DeviceId>,
    /// The least that any device gets, as a part (0 to 1) of an even share; mastered
    /// devices live on it.
    pub floor: f64,
    /// The exemplars that the exercise can make.
    pub reach: Reach,
}

impl Default for Wishes {
    fn default() -> Self {
        Self {
            pinned: Vec::new(),
            excluded: Vec::new(),
            floor: 0.05,
            reach: Reach::default(),
        }
    }
}

/// Between what bounds exemplars can be made easier or harder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    pub easiest: Difficulty,
    pub hardest: Difficulty,
    pub key_setting: KeySetting,
    /// How many answers are on offer; 0 when they are typed.
    pub answers: u32,
}

impl Reach {
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

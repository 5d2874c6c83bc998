//! What the learner or a teacher asks of the choice.

use super::reach::Reach;
use crate::devices::DeviceId;

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

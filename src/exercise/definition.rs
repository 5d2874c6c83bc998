//! What an exercise is.

use crate::devices::DeviceId;
use crate::quiz::Drill;
use crate::theory::BareSix;

/// A drill with its name and its purpose. Everything has been checked: the devices exist
/// and can be asked in at least one of the keys.
#[derive(Clone, Debug, PartialEq)]
pub struct Exercise {
    /// Lower-case words joined by hyphens.
    pub id: String,
    /// What the list of exercises calls it, up to 60 characters.
    pub title: String,
    /// What the exercise is for, to pupil and teacher.
    pub about: String,
    /// Devices asked in full measure however well they are known; some of the drill's.
    pub always: Vec<DeviceId>,
    /// The least that every device gets however well it is known, in percent of an even
    /// share, 0 to 100; without it the scorer's own.
    pub floor: Option<u8>,
    /// What is asked, and in what surroundings.
    pub drill: Drill,
}

impl Exercise {
    /// The drill, a bare six in typed answers read as `six` says.
    #[must_use]
    pub fn drill(&self, six: BareSix) -> Drill {
        Drill {
            six,
            ..self.drill.clone()
        }
    }
}

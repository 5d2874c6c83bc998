//! From what the scorer wishes to what a drill can do about it.

use crate::exercise::Exercise;
use crate::quiz::{Aim, Held, Question};
use crate::scorer::{Choice, Wishes};

/// What an exercise asks of the choice.
#[must_use]
pub fn wishes(exercise: &Exercise) -> Wishes {
    let usual = Wishes::default();
    let floor = exercise.floor.map(|percent| f64::from(percent) / 100.0);
    Wishes {
        pinned: exercise.always.clone(),
        floor: floor.unwrap_or(usual.floor),
        ..usual
    }
}

/// What the next question should be like. Key and sound stay from one question to the next
/// where the device allows, whichever it is: else they would tell that it comes again.
pub(super) fn aim(choice: &Choice, before: Option<&Question>) -> Aim {
    let exemplar = &choice.exemplar;
    let held = before
        .filter(|_| exemplar.hold_key_and_sound)
        .map(|question| Held {
            key: question.key(),
            sound: question.sound.clone(),
        });
    exemplar.aim(held)
}

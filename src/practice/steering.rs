//! From what the scorer wishes to what a drill can do about it.

use crate::exercise::Exercise;
use crate::journal::{Difficulty, KeySetting};
use crate::quiz::{Aim, Drill, Hardness, Held, KeyGiven, Question};
use crate::scorer::{Choice, Reach, Wishes};

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

/// The exemplars that a drill can make.
pub(super) fn reach(drill: &Drill) -> Reach {
    let (easiest, hardest) = Hardness::bounds(drill);
    Reach {
        easiest: difficulty(easiest, None),
        hardest: difficulty(hardest, None),
        key_setting: key_setting(drill.key_given),
        answers: drill.answers as u32,
    }
}

/// What the next question should be like. Key and sound stay only from one question to
/// the next on the same device.
pub(super) fn aim(choice: &Choice, before: Option<&Question>) -> Aim {
    let exemplar = &choice.exemplar;
    let held = before
        .filter(|question| exemplar.hold_key_and_sound && question.wanted == choice.device)
        .map(|question| Held {
            key: question.key(),
            sound: question.sound.clone(),
        });
    let wanted = exemplar.difficulty;
    Aim {
        hardness: Some(Hardness {
            inversion: wanted.inversion,
            texture: wanted.texture,
            tempo: wanted.tempo,
        }),
        held,
        explain: exemplar.explain,
    }
}

/// What the journal says of a question's hardness; where nobody can tell how near the wrong
/// answers lie, they count as middling.
pub(super) fn difficulty(hardness: Hardness, nearness: Option<f64>) -> Difficulty {
    let middling = Difficulty::default();
    Difficulty {
        inversion: hardness.inversion,
        texture: hardness.texture,
        tempo: hardness.tempo,
        similarity: nearness.unwrap_or(middling.similarity),
    }
}

pub(super) fn key_setting(given: KeyGiven) -> KeySetting {
    match given {
        KeyGiven::Cadence => KeySetting::Cadence,
        KeyGiven::Tonic => KeySetting::Tonic,
        KeyGiven::Nothing => KeySetting::Nothing,
    }
}

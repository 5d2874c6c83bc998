//! From what the scorer wishes to what a drill can do about it.

use crate::journal::{Difficulty, KeySetting};
use crate::quiz::{Aim, Drill, Hardness, Held, KeyGiven, Question};
use crate::scorer::{Choice, Reach};

/// The exemplars that a drill can make.
pub(super) fn reach(drill: &Drill) -> Reach {
    let (easiest, hardest) = Hardness::bounds(drill);
    Reach {
        easiest: difficulty(easiest),
        hardest: difficulty(hardest),
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

/// What the journal says of a question's hardness. How near the wrong answers lie is not
/// steered and counts as middling.
pub(super) fn difficulty(hardness: Hardness) -> Difficulty {
    Difficulty {
        inversion: hardness.inversion,
        texture: hardness.texture,
        tempo: hardness.tempo,
        ..Difficulty::default()
    }
}

pub(super) fn key_setting(given: KeyGiven) -> KeySetting {
    match given {
        KeyGiven::Cadence => KeySetting::Cadence,
        KeyGiven::Tonic => KeySetting::Tonic,
        KeyGiven::Nothing => KeySetting::Nothing,
    }
}

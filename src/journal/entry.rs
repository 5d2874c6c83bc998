//! One answered question, as plain data. Everything a later reader needs stands in it,
//! because the code that made the question will have changed by then.

use serde::{Deserialize, Serialize};

use crate::devices::DeviceId;

/// One answered question.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// The format of this line; see [`super::FORMAT`].
    pub version: u32,
    /// Unique over all journals. Older programs gave one to several answers of a sitting:
    /// the first of each drill had the same, and so on.
    pub id: String,
    /// When the answer came, in milliseconds since 1970 (UTC).
    pub time: u64,
    /// Who answered.
    pub learner: String,
    /// The id of the session it was answered in.
    pub session: String,
    /// The id of the exercise.
    pub exercise: String,
    /// The seed of the drill; with `index` it makes the question again.
    pub seed: u64,
    /// The question's place in the drill, from 0.
    pub index: u32,
    /// The kind of question, by its id.
    pub kind: String,
    /// The home key, such as `Eb major`.
    pub key: String,
    /// The realised numerals, as text.
    pub line: String,
    /// Quarter notes a minute.
    pub tempo: f64,
    /// The id of the sound.
    pub sound: String,
    /// The id of the texture.
    pub texture: String,
    /// How the key was made known.
    pub key_setting: KeySetting,
    /// How many answers were on offer for a slot; 0 when the answer was typed.
    pub answers: u32,
    /// How hard the exemplar was to hear.
    pub difficulty: Difficulty,
    /// From the end of the sound, or the last replay, to the answer, in milliseconds.
    pub thinking: u64,
    /// How often the passage was heard again before the answer.
    pub replays: u32,
    /// How many devices were explained before the answer, the asked one among them.
    #[serde(default, skip_serializing_if = "is_none")]
    pub explained: u32,
    /// The answer to each asked chord.
    pub slots: Vec<SlotAnswer>,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // what serde asks for
fn is_none(count: &u32) -> bool {
    *count == 0
}

/// How the key was made known before the question.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum KeySetting {
    /// By a cadence.
    #[default]
    Cadence,
    /// By its tonic.
    Tonic,
    /// Not at all.
    Nothing,
}

/// What makes this exemplar easy (0) or hard (1) to hear, apart from its device.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Difficulty {
    /// How far the bass hides the root: 0 all in root position, 1 all inverted.
    pub inversion: f64,
    /// How far the texture hides the chord: 0 held chords, 1 the thinnest line.
    pub texture: f64,
    /// How little time each chord has: 0 at leisure, 1 as fast as the exercise goes.
    pub tempo: f64,
    /// How near the wrong answers on offer lie: 0 far off, 1 the nearest neighbours.
    pub similarity: f64,
}

impl Default for Difficulty {
    /// Middling in every respect: what an exemplar counts as when nobody measured it.
    fn default() -> Self {
        Self {
            inversion: 0.5,
            texture: 0.5,
            tempo: 0.5,
            similarity: 0.5,
        }
    }
}

/// The answer to one asked chord of the line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SlotAnswer {
    /// Index of the chord in the line, from 0.
    pub slot: u32,
    /// The devices that the chord belongs to.
    pub devices: Vec<DeviceId>,
    /// The numeral that sounded.
    pub truth: String,
    /// What it does, in words.
    pub function: String,
    /// The quality of the chord, in a word.
    pub quality: String,
    /// Scale degree of the root, such as `4` or `b6`.
    pub degree: String,
    /// Scale degree in the bass.
    pub bass: String,
    /// The answer as it was given.
    pub answer: String,
    /// The tier of the mark, by its name.
    pub mark: String,
    /// What the answer is worth, 0 to 1; 1 is right.
    pub credit: f64,
    /// The device that the answer would have been, where it names one.
    #[serde(default)]
    pub heard_as: Option<DeviceId>,
    /// The answers on offer as they were shown, the right one first; none where it was typed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub offers: Vec<String>,
}

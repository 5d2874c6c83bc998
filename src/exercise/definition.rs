//! What an exercise is.

use std::ops::RangeInclusive;

use crate::devices::DeviceId;
use crate::theory::{Key, Meter};

/// What a drill asks, and in what surroundings. Everything has been checked: the devices
/// exist and can be asked in at least one of the keys.
#[derive(Clone, Debug, PartialEq)]
pub struct Exercise {
    /// Lower-case words joined by hyphens.
    pub id: String,
    pub title: String,
    /// What the exercise is for, to pupil and teacher.
    pub about: String,
    /// What is asked.
    pub devices: Vec<DeviceId>,
    /// Devices asked in full measure however well they are known; some of `devices`.
    pub always: Vec<DeviceId>,
    /// Devices that no line may hold; none of `devices`.
    pub never: Vec<DeviceId>,
    /// One of them for each question.
    pub keys: Vec<Key>,
    /// 2 to 32.
    pub bars: RangeInclusive<u32>,
    pub meter: Meter,
    /// Quarter notes a minute, 30 to 300.
    pub tempo: RangeInclusive<u32>,
    pub key_given: KeyGiven,
    /// The id of the kind of question.
    pub kind: String,
    pub ask: Ask,
    pub answers: Answers,
    /// Questions in one drill, 1 to 500.
    pub questions: u32,
    /// Ids of sounds, one of them for each question.
    pub sounds: Vec<String>,
    /// Ids of textures, one of them for each question.
    pub textures: Vec<String>,
}

/// What is heard of the key before the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum KeyGiven {
    Cadence,
    /// The tonic chord alone.
    Tonic,
    Nothing,
}

impl KeyGiven {
    pub const WORDS: &[(&str, Self)] = &[
        ("cadence", Self::Cadence),
        ("tonic", Self::Tonic),
        ("nothing", Self::Nothing),
    ];
}

/// Which chords of a line are asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ask {
    EveryChord,
    ChordsOutOfKey,
    /// One chord, of the device that the question is about.
    MarkedChord,
}

impl Ask {
    pub const WORDS: &[(&str, Self)] = &[
        ("every chord", Self::EveryChord),
        ("chords out of key", Self::ChordsOutOfKey),
        ("marked chord", Self::MarkedChord),
    ];
}

/// How an answer is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Answers {
    Typed,
    /// One of so many, 2 to 12.
    Choices(u8),
}

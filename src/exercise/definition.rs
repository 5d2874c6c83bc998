//! What an exercise is.

use std::ops::RangeInclusive;

use crate::arranging::Texture;
use crate::devices::DeviceId;
use crate::quiz::{Asked, KeyGiven, QuestionKind};
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
    pub tempo: RangeInclusive<u16>,
    pub key_given: KeyGiven,
    pub kind: QuestionKind,
    pub asked: Asked,
    /// How many answers are on offer, 2 to 12; 0 when the answer is typed.
    pub answers: usize,
    /// Questions in one drill, 1 to 500.
    pub questions: u32,
    /// Ids of sounds, one of them for each question.
    pub sounds: Vec<String>,
    /// One of them for each question.
    pub textures: Vec<Texture>,
}

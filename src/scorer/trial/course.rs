//! What the simulated learners practise: the devices, and the exemplars of them that the
//! exercise can make.

use super::chance::Chance;
use super::learner::{ANSWERS, DEVICES, family};
use crate::arranging::Texture;
use crate::devices::DeviceId;
use crate::journal::Difficulty;
use crate::quiz::{Aim, Asked, Drill, Hardness, KeyGiven, QuestionKind};
use crate::scorer::{Reach, Scorer, difficulty};
use crate::theory::{BareSix, Meter};

/// The part of a line's chords that are inverted, 0 to 1, and the part of the wrong answers
/// that lie near: the means of the tenths of what the questions of the built-in exercises
/// have, from the least to the most.
const INVERTED: [f64; 10] = [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.09, 0.13, 0.23];
const NEAR: [f64; 10] = [0.14, 0.25, 0.39, 0.46, 0.50, 0.59, 0.71, 0.75, 0.80, 0.98];

/// So many exemplars make an average one.
const AVERAGED: u32 = 4000;

/// Tempos, in quarter notes a minute, and textures reach as far as those of the built-in
/// exercise that reaches furthest.
const TEMPO: std::ops::RangeInclusive<u16> = 88..=126;
const TEXTURES: [Texture; 7] = [
    Texture::HeldChords,
    Texture::FourToTheBar,
    Texture::Bossa,
    Texture::TwoFeel,
    Texture::WalkingBass,
    Texture::Stride,
    Texture::Band,
];

/// An exercise for simulated learners.
#[derive(Clone, Debug)]
pub(super) struct Course {
    drill: Drill,
    /// What the choice can steer between.
    pub(super) reach: Reach,
    /// The average of the exemplars that chance makes.
    pub(super) average: Difficulty,
}

impl Course {
    pub(super) fn new() -> Self {
        let devices = (0..DEVICES).map(|device| format!("device-{device}"));
        let drill = Drill {
            exercise: "simulated".to_owned(),
            kind: QuestionKind::NameChords,
            asked: Asked::ChordsOutOfKey,
            devices: devices
                .map(|id| id.parse().expect("a device id"))
                .collect(),
            never: Vec::new(),
            keys: Vec::new(),
            bars: 6..=8,
            meter: Meter::FourFour,
            tempo: TEMPO,
            key_given: KeyGiven::Cadence,
            answers: ANSWERS as usize,
            questions: 25,
            sounds: Vec::new(),
            textures: TEXTURES.to_vec(),
            six: BareSix::AddedSixth,
        };
        let mut course = Self {
            reach: Reach::of(&drill),
            drill,
            average: Difficulty::default(),
        };
        course.average = course.averaged();
        course
    }

    /// The devices, by number.
    pub(super) fn devices(&self) -> &[DeviceId] {
        &self.drill.devices
    }

    /// A scorer that knows the devices and nothing of their learner.
    pub(super) fn scorer(&self) -> Scorer {
        let families = (0..DEVICES).map(|device| format!("family-{}", family(device)));
        Scorer::new(self.devices().iter().cloned().zip(families))
    }

    /// What an aim makes of a question, as loosely as of a real one: tempo and texture are
    /// drawn by the same lots, of as many lines the nearest is taken, and how near the wrong
    /// answers lie is left to chance.
    pub(super) fn exemplar(&self, aim: &Aim, chance: &mut Chance) -> Difficulty {
        let tempo = aim.tempo(&self.drill, chance.generator());
        let texture = aim.texture(&self.drill, tempo, chance.generator());
        let inverted = (0..aim.lines())
            .map(|_| chance.one_of(&INVERTED))
            .min_by(|one, other| aim.away(*one).total_cmp(&aim.away(*other)))
            .unwrap_or_default();
        let near = chance.one_of(&NEAR);
        difficulty(Hardness::new(inverted, texture, tempo), Some(near))
    }

    fn averaged(&self) -> Difficulty {
        let mut chance = Chance::new(0, 6);
        let none = Difficulty {
            inversion: 0.0,
            texture: 0.0,
            tempo: 0.0,
            similarity: 0.0,
        };
        let part = 1.0 / f64::from(AVERAGED);
        (0..AVERAGED).fold(none, |sum, _| {
            let one = self.exemplar(&Aim::default(), &mut chance);
            Difficulty {
                inversion: sum.inversion + part * one.inversion,
                texture: sum.texture + part * one.texture,
                tempo: sum.tempo + part * one.tempo,
                similarity: sum.similarity + part * one.similarity,
            }
        })
    }
}

//! What the simulated learners practise: the devices, and the exemplars of them that the
//! exercise can make.

use super::chance::Chance;
use super::syllabus::{ANSWERS, DEVICES, family};
use crate::arranging::Texture;
use crate::devices::DeviceId;
use crate::harmony::Phrasing;
use crate::journal::Difficulty;
use crate::quiz::{Aim, Asked, Drill, Followed, Hardness, KeyGiven, QuestionKind};
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
            followed: Followed::Bass,
            devices: devices.map(|id| id.parse().expect("a device id")).collect(),
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
            styles: Vec::new(),
            phrasing: Phrasing::Plain,
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

    /// As if the exercise made nothing but average exemplars.
    pub(super) fn average_reach(&self) -> Reach {
        Reach {
            easiest: self.average,
            hardest: self.average,
            ..self.reach
        }
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

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::devices::Catalogue;
    use crate::exercise::{Exercise, Known};
    use crate::quiz::Question;
    use crate::scorer::Exemplar;

    const DRAWS: u32 = 2000;

    fn drawn(aim: &Aim) -> Vec<Difficulty> {
        let course = Course::new();
        let mut chance = Chance::new(7, 4);
        (0..DRAWS)
            .map(|_| course.exemplar(aim, &mut chance))
            .collect()
    }

    fn aim(difficulty: Difficulty) -> Aim {
        let exemplar = Exemplar {
            difficulty,
            predicted: 0.78,
            hold_key_and_sound: false,
            explain: false,
        };
        exemplar.aim(None)
    }

    fn mean(exemplars: &[Difficulty], feature: impl Fn(&Difficulty) -> f64) -> f64 {
        exemplars.iter().map(feature).sum::<f64>() / f64::from(DRAWS)
    }

    #[test]
    fn chance_spreads_exemplars_evenly_over_the_reach() {
        let course = Course::new();
        let exemplars = drawn(&Aim::default());
        let (easiest, hardest) = (course.reach.easiest, course.reach.hardest);
        for texture in TEXTURES {
            let like = Hardness::new(0.0, texture, 100).texture;
            let alike = TEXTURES.map(|other| Hardness::new(0.0, other, 100).texture == like);
            let expected = alike.iter().filter(|is_alike| **is_alike).count() as f64 / 7.0;
            let found = mean(&exemplars, |one| f64::from(u8::from(one.texture == like)));
            // Four standard errors of a share of one in seven.
            assert!((found - expected).abs() < 0.032, "{texture}: {found}");
        }
        for quarter in 0..4 {
            let part = |one: &Difficulty| {
                let place = (one.tempo - easiest.tempo) / (hardest.tempo - easiest.tempo);
                f64::from(u8::from((place * 4.0).min(3.9) as u32 == quarter))
            };
            let found = mean(&exemplars, part);
            assert!((found - 0.25).abs() < 0.05, "quarter {quarter}: {found}");
        }
        assert!((mean(&exemplars, |one| one.texture) - course.average.texture).abs() < 0.02);
        assert!((mean(&exemplars, |one| one.similarity) - course.average.similarity).abs() < 0.03);
    }

    #[test]
    fn an_aim_moves_exemplars_without_nailing_them_down() {
        let reach = Course::new().reach;
        let (easy, hard) = (drawn(&aim(reach.easiest)), drawn(&aim(reach.hardest)));
        let texture = |one: &Difficulty| one.texture;
        let tempo = |one: &Difficulty| one.tempo;
        assert!(mean(&easy, texture) + 0.2 < mean(&hard, texture));
        assert!(mean(&easy, tempo) + 0.1 < mean(&hard, tempo));
        assert!(
            easy.iter()
                .any(|one| one.texture > reach.easiest.texture + 0.2)
        );
        // How near the wrong answers lie is nobody's choice.
        let near = |one: &Difficulty| one.similarity;
        assert!((mean(&easy, near) - mean(&hard, near)).abs() < 0.04);
    }

    #[test]
    fn lines_are_inverted_as_often_as_those_of_the_exercises() {
        let catalogue = Arc::new(Catalogue::built_in());
        let sounds = [
            "piano",
            "strings",
            "organ",
            "electric-piano",
            "nylon-guitar",
        ];
        let known = Known {
            catalogue: &catalogue,
            sounds: &sounds,
        };
        let texts = [
            include_str!("../../exercises/the-bass-moves.json"),
            include_str!("../../exercises/big-steps.json"),
            include_str!("../../exercises/mixed-colours.json"),
            include_str!("../../exercises/home-in-minor.json"),
        ];
        let mut parts = Vec::new();
        for text in texts {
            let drill = Exercise::read(text, known).expect("built in").drill;
            for (device, seed) in drill.devices.iter().zip(0..).cycle().take(100) {
                let seed = seed + parts.len() as u64;
                let question = Question::new(&drill, &catalogue, device, seed);
                parts.extend(question.ok().map(|made| Hardness::of(&made).inversion));
            }
        }
        let found = parts.iter().sum::<f64>() / parts.len() as f64;
        let expected = INVERTED.iter().sum::<f64>() / INVERTED.len() as f64;
        println!("inverted: {found} of the chords, {expected} simulated");
        assert!((found - expected).abs() < 0.04, "{found} and {expected}");
    }
}

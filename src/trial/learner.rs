//! A simulated learner: abilities, answers and forgetting.

use super::chance::Chance;
use super::dynamics::Dynamics;
use super::ease::Ease;
use super::syllabus::{ANSWERS, DEVICES, FAMILY, family};
use super::world::World;
use crate::journal::Difficulty;

/// How often a heard device is missed all the same.
const SLIP: f64 = 0.03;

/// What a simulated learner answers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reply {
    pub(super) right: bool,
    /// The device that it was taken for, when wrong.
    pub(super) heard_as: Option<usize>,
    /// The true chance of a right answer at that moment.
    pub(super) chance: f64,
}

/// Someone who is asked one question after another.
#[derive(Clone, Debug)]
pub(super) struct Learner {
    dynamics: Dynamics,
    ease: Ease,
    chance: Chance,
    /// Blind answers to come.
    lapse: u32,
    mood: f64,
}

impl Learner {
    /// Abilities are those in the average exemplar.
    pub(super) fn new(world: World, average: Difficulty, seed: u64) -> Self {
        Self {
            dynamics: Dynamics::new(world, &mut Chance::new(seed, 1)),
            ease: Ease::new(average, &mut Chance::new(seed, 5)),
            // Answers draw from a stream of their own: the start stays the same.
            chance: Chance::new(seed, 2),
            lapse: 0,
            mood: 0.0,
        }
    }

    /// A night passes.
    pub(super) fn sleep(&mut self) {
        self.dynamics.forget(1.0);
        self.mood = if self.dynamics.world() == World::Moods {
            0.9 * self.chance.normal()
        } else {
            0.0
        };
    }

    /// Asks for a device in this exemplar; the answer, and the learning from it.
    pub(super) fn answer(&mut self, device: usize, exemplar: Difficulty) -> Reply {
        let chance = self.chance_now(device, exemplar);
        let right = self.chance.happens(chance);
        let heard_as = (!right).then(|| self.taken_for(device));
        let attentive = self.lapse == 0;
        self.lapse = self.lapse.saturating_sub(1);
        if self.dynamics.world() == World::Lapses && self.lapse == 0 && self.chance.happens(0.02) {
            self.lapse = 5;
        }
        if attentive {
            self.dynamics.learn(device, chance, &mut self.chance);
        }
        Reply {
            right,
            heard_as,
            chance,
        }
    }

    fn chance_now(&self, device: usize, exemplar: Difficulty) -> f64 {
        if self.lapse > 0 {
            1.0 / f64::from(ANSWERS)
        } else {
            success(self.dynamics.ability(device) + self.mood + self.ease.of(exemplar))
        }
    }

    /// Mostly a neighbour of the family.
    fn taken_for(&mut self, device: usize) -> usize {
        let from = if self.chance.happens(0.8) {
            family(device) * FAMILY..(family(device) + 1) * FAMILY
        } else {
            0..DEVICES
        };
        let others: Vec<usize> = from.filter(|other| *other != device).collect();
        others[self.chance.below(others.len())]
    }

    /// The true chance of a right answer to the average exemplar on an attentive, ordinary
    /// day.
    pub(super) fn success(&self, device: usize) -> f64 {
        success(self.dynamics.ability(device))
    }

    /// The mean of [`Self::success`] over all devices after this many days.
    pub(super) fn delayed(&self, days: f64) -> f64 {
        let mut later = self.dynamics.clone();
        later.forget(days);
        #[allow(clippy::cast_precision_loss)]
        let count = DEVICES as f64;
        (0..DEVICES)
            .map(|device| success(later.ability(device)))
            .sum::<f64>()
            / count
    }
}

fn success(ability: f64) -> f64 {
    let guess = 1.0 / f64::from(ANSWERS);
    guess + (1.0 - guess - SLIP) / (1.0 + libm::exp(-ability))
}

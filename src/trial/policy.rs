//! Ways of choosing the next device.

use super::chance::Chance;
use super::course::Course;
use super::syllabus::DEVICES;
use crate::devices::DeviceId;
use crate::quiz::Aim;
use crate::scorer::{Scorer, Wishes};

/// A way of choosing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Policy {
    /// Any device, by lot.
    Uniform,
    /// All devices once in a shuffled order, then again.
    Bag,
    /// The lowest share of right answers so far.
    Weakest,
    /// The lowest of one draw for each device from what its answers say (Thompson 1933).
    Thompson,
    /// The scorer's own, with exemplars by lot.
    Unsteered,
    /// The scorer's own, exemplars included.
    Scorer,
}

impl Policy {
    /// All policies.
    pub const ALL: [Self; 6] = [
        Self::Uniform,
        Self::Bag,
        Self::Weakest,
        Self::Thompson,
        Self::Unsteered,
        Self::Scorer,
    ];

    /// The name in commands and tables.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Uniform => "uniform",
            Self::Bag => "bag",
            Self::Weakest => "weakest-first",
            Self::Thompson => "thompson",
            Self::Unsteered => "scorer-unsteered",
            Self::Scorer => "scorer",
        }
    }
}

/// A policy at work.
#[derive(Clone, Debug)]
pub(super) struct Chooser {
    policy: Policy,
    chance: Chance,
    bag: Vec<usize>,
    right: Vec<u32>,
    wrong: Vec<u32>,
    pool: Vec<DeviceId>,
    wishes: Wishes,
}

/// What is asked next, and which exemplar is looked for.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    pub(super) device: usize,
    pub(super) aim: Aim,
}

impl Chooser {
    pub(super) fn new(policy: Policy, course: &Course, seed: u64) -> Self {
        Self {
            policy,
            chance: Chance::new(seed, 3),
            bag: Vec::new(),
            right: vec![0; DEVICES],
            wrong: vec![0; DEVICES],
            pool: course.devices().to_vec(),
            wishes: Wishes {
                reach: course.reach,
                ..Wishes::default()
            },
        }
    }

    pub(super) fn count(&mut self, device: usize, right: bool) {
        if right {
            self.right[device] += 1;
        } else {
            self.wrong[device] += 1;
        }
    }

    pub(super) fn next(&mut self, scorer: &Scorer, now: u64) -> Wanted {
        let device = match self.policy {
            Policy::Uniform => self.chance.below(DEVICES),
            Policy::Bag => {
                if self.bag.is_empty() {
                    self.bag = (0..DEVICES).collect();
                    self.chance.shuffle(&mut self.bag);
                }
                self.bag.pop().expect("the bag was just filled")
            }
            Policy::Weakest => {
                let rate = |device: usize| {
                    let right = f64::from(self.right[device] + 1);
                    right / (right + f64::from(self.wrong[device] + 1))
                };
                let rates: Vec<f64> = (0..DEVICES).map(rate).collect();
                self.lowest(&rates)
            }
            Policy::Thompson => {
                let draws: Vec<f64> = (0..DEVICES)
                    .map(|device| {
                        let right = self.chance.gamma(self.right[device] + 1);
                        right / (right + self.chance.gamma(self.wrong[device] + 1))
                    })
                    .collect();
                self.lowest(&draws)
            }
            Policy::Unsteered => self.advised(scorer, now).device,
            Policy::Scorer => return self.advised(scorer, now),
        };
        Wanted {
            device,
            aim: Aim::default(),
        }
    }

    fn advised(&mut self, scorer: &Scorer, now: u64) -> Wanted {
        let seed = self.chance.below(usize::MAX) as u64;
        let choice = scorer
            .next(&self.pool, &self.wishes, now, seed)
            .expect("the pool is not empty");
        let place = self.pool.iter().position(|id| *id == choice.device);
        Wanted {
            device: place.expect("the choice is from the pool"),
            aim: choice.exemplar.aim(None),
        }
    }

    /// The place of the lowest value; ties by lot.
    fn lowest(&mut self, values: &[f64]) -> usize {
        let least = values.iter().copied().fold(f64::INFINITY, f64::min);
        let tied: Vec<usize> = (0..values.len())
            .filter(|place| values[*place] <= least)
            .collect();
        tied[self.chance.below(tied.len())]
    }
}

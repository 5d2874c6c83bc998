//! What a learner is told of devices, against the truth.

use super::course::Course;
use super::learner::Learner;
use crate::scorer::{Scorer, Wishes, Word};

/// A device is truly good from this chance of a right answer on, and poor below that.
const GOOD: f64 = 0.85;
const POOR: f64 = 0.75;

/// Counts of devices of which something was said.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Verdicts {
    /// Devices that were asked at all.
    pub told: u32,
    /// Those whose true chance lay within the interval given.
    pub covered: u32,
    /// Those that are truly good, and of these the ones called secure.
    pub good: u32,
    /// Truly good ones called secure.
    pub good_secure: u32,
    /// Those that are poor.
    pub poor: u32,
    /// Poor ones called secure.
    pub poor_secure: u32,
    /// Those that are not poor.
    pub fair: u32,
    /// Ones that are not poor, called weak.
    pub fair_weak: u32,
    /// Poor ones called weak.
    pub poor_weak: u32,
}

impl Verdicts {
    /// What is said of a learner at `now` in the average exemplar of the course.
    pub(super) fn of(learner: &Learner, scorer: &Scorer, course: &Course, now: u64) -> Self {
        let wishes = Wishes {
            reach: course.average_reach(),
            ..Wishes::default()
        };
        let standings = scorer.standings_within(course.devices(), &wishes, now);
        let mut verdicts = Self::default();
        for (device, standing) in standings.iter().enumerate() {
            if standing.asked == 0 {
                continue;
            }
            let truth = learner.success(device);
            let secure = u32::from(standing.word == Word::Secure);
            let weak = u32::from(standing.word == Word::Weak);
            verdicts.told += 1;
            verdicts.covered += u32::from((standing.low..=standing.high).contains(&truth));
            if truth >= GOOD {
                verdicts.good += 1;
                verdicts.good_secure += secure;
            }
            if truth < POOR {
                verdicts.poor += 1;
                verdicts.poor_secure += secure;
                verdicts.poor_weak += weak;
            } else {
                verdicts.fair += 1;
                verdicts.fair_weak += weak;
            }
        }
        verdicts
    }

    /// Takes in those of another learner.
    pub(super) fn join(&mut self, other: &Self) {
        self.told += other.told;
        self.covered += other.covered;
        self.good += other.good;
        self.good_secure += other.good_secure;
        self.poor += other.poor;
        self.poor_secure += other.poor_secure;
        self.fair += other.fair;
        self.fair_weak += other.fair_weak;
        self.poor_weak += other.poor_weak;
    }

    /// How often the truth lies within the interval of 95 %.
    #[must_use]
    pub fn coverage(&self) -> f64 {
        part(self.covered, self.told)
    }

    /// The part of the truly good devices that are called secure.
    #[must_use]
    pub fn power(&self) -> f64 {
        part(self.good_secure, self.good)
    }

    /// The part of the poor devices that are called secure.
    #[must_use]
    pub fn false_secure(&self) -> f64 {
        part(self.poor_secure, self.poor)
    }

    /// The part of the devices that are not poor which are called weak.
    #[must_use]
    pub fn false_weak(&self) -> f64 {
        part(self.fair_weak, self.fair)
    }

    /// The part of the poor devices that are called weak.
    #[must_use]
    pub fn found_weak(&self) -> f64 {
        part(self.poor_weak, self.poor)
    }
}

/// None of none is 0.
fn part(some: u32, all: u32) -> f64 {
    f64::from(some) / f64::from(all.max(1))
}

//! What to ask next, and why.
//!
//! Every device is due a part of the questions. The device that is furthest behind its
//! part comes next; small bonuses let a miss be followed by its contrast, and devices of
//! one family by each other (interleaving the similar: Brunmair & Richter 2019; Kang &
//! Pashler 2012).

use std::fmt;

use rand::RngExt;
use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;

use super::fold::Scorer;
use super::settings::Wishes;
use crate::devices::DeviceId;
use crate::journal::Difficulty;

/// What to ask next.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The device to ask for.
    pub device: DeviceId,
    /// Why it is asked.
    pub reason: Reason,
    /// What kind of exemplar would suit.
    pub exemplar: Exemplar,
    /// The part of the questions that the device is due in this pool, 0 to 1.
    pub share: f64,
}

/// What kind of exemplar would suit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exemplar {
    /// How hard it should be to hear.
    pub difficulty: Difficulty,
    /// The chance of a right answer to it, as far as one can tell.
    pub predicted: f64,
    /// Key and sound should stay as they were: the device is still too new for variety.
    pub hold_key_and_sound: bool,
    /// Twelve answers brought no movement: explain the device before asking again.
    pub explain: bool,
}

/// Why a device is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// It has never been asked.
    First,
    /// It was missed and has not come back yet.
    Missed,
    /// It is what a missed device was taken for.
    Contrast {
        /// The missed device.
        missed: DeviceId,
    },
    /// It is often taken for another device.
    HeardAs {
        /// The other device.
        other: DeviceId,
        /// How often.
        times: u32,
    },
    /// The learner or a teacher pinned it.
    Pinned,
    /// It is due its part of the questions.
    Due {
        /// That part, in percent.
        percent: u32,
    },
}

impl Reason {
    /// The reason in words; `name` says how a device is called.
    #[must_use]
    pub fn words(&self, name: impl Fn(&DeviceId) -> String) -> String {
        match self {
            Self::First => "first time".to_owned(),
            Self::Missed => "missed a moment ago".to_owned(),
            Self::Contrast { missed } => format!("in contrast to {}", name(missed)),
            Self::HeardAs { other, times } => format!("heard as {} {times} times", name(other)),
            Self::Pinned => "pinned".to_owned(),
            Self::Due { percent } => format!("due: {percent} % of the questions"),
        }
    }
}

impl fmt::Display for Reason {
    /// With the ids of devices.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(ToString::to_string))
    }
}

/// What a miss adds to the credit of its contrast, in questions.
const CONTRAST: f64 = 0.6;

/// After so many others a missed device comes back: at once it would only be remembered.
const REST: usize = 2;

/// What it adds, in questions, that the question before was of the same family: similar
/// things are told apart when they come side by side.
const KIN: f64 = 0.4;

/// Among so few devices what comes next is drawn by lot, or it could be foretold: the one
/// that is furthest behind and the others would take turns.
pub(super) const FEW: usize = 6;

/// How much likelier, in logits, a device is drawn for each question that it is behind.
const CATCHING_UP: f64 = 0.25;

/// Credits closer than this are a tie, which the seed decides.
const TIE: f64 = 1e-9;

impl Scorer {
    /// The device of `pool` to ask next, or none when nothing may be asked. Devices that
    /// the catalogue does not hold are passed over. The seed only breaks ties.
    #[must_use]
    pub fn next(&self, pool: &[DeviceId], wishes: &Wishes, now: u64, seed: u64) -> Option<Choice> {
        let mut allowed: Vec<usize> = pool
            .iter()
            .filter(|id| !wishes.excluded.contains(id))
            .filter_map(|id| self.digester.number(id.as_str()))
            .collect();
        allowed.sort_unstable();
        allowed.dedup();
        let shares = self.shares(&allowed, wishes, now);
        let credits = self.credits(&allowed, &shares);
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let at = if allowed.len() <= FEW {
            drawn(&shares, &credits, &mut random)?
        } else {
            self.most_due(&allowed, &credits, &mut random)?
        };
        let device = allowed[at];
        Some(Choice {
            device: self.devices[device].clone(),
            reason: self.reason(device, shares[at], wishes),
            exemplar: self.exemplar(device, &allowed, &wishes.reach, now),
            share: shares[at],
        })
    }

    /// How many questions each device is behind its part.
    fn credits(&self, allowed: &[usize], shares: &[f64]) -> Vec<f64> {
        let turns: Vec<f64> = allowed
            .iter()
            .map(|device| self.tallies[*device].turns_at(self.turn))
            .collect();
        let questions = 1.0 + turns.iter().sum::<f64>();
        let credit = |at: usize| {
            let bonus = |applies: bool, size: f64| if applies { size } else { 0.0 };
            shares[at] * questions - turns[at]
                + bonus(self.contrasts(allowed[at]), CONTRAST)
                + bonus(self.is_kin(allowed[at]), KIN)
        };
        (0..allowed.len()).map(credit).collect()
    }

    /// The place in `allowed` of the device furthest behind its part, but for the last.
    fn most_due(
        &self,
        allowed: &[usize],
        credits: &[f64],
        random: &mut ChaCha8Rng,
    ) -> Option<usize> {
        let fresh: Vec<usize> = (0..allowed.len())
            .filter(|at| !self.recent.was_last(allowed[*at]))
            .collect();
        let places = if fresh.is_empty() {
            (0..allowed.len()).collect()
        } else {
            fresh
        };
        let best = places
            .iter()
            .map(|at| credits[*at])
            .max_by(f64::total_cmp)?;
        let tied: Vec<usize> = places
            .into_iter()
            .filter(|at| credits[*at] > best - TIE)
            .collect();
        Some(tied[random.random_range(0..tied.len())])
    }

    /// Whether the last question was of the device's family.
    fn is_kin(&self, device: usize) -> bool {
        let family = self.family_of[device];
        self.recent
            .last()
            .iter()
            .any(|other| self.family_of[*other] == family)
    }

    /// Whether a recent miss asks for this device: the missed one or what it was heard as.
    fn contrasts(&self, device: usize) -> bool {
        let mut misses = self.recent.open_misses();
        misses.any(|(age, miss)| {
            miss.device == device && age >= REST || miss.heard_as == Some(device)
        })
    }

    fn reason(&self, device: usize, share: f64, wishes: &Wishes) -> Reason {
        if self.tallies[device].asked == 0 {
            return Reason::First;
        }
        if wishes.pinned.contains(&self.devices[device]) {
            return Reason::Pinned;
        }
        for (_, miss) in self.recent.open_misses() {
            if miss.device == device {
                return Reason::Missed;
            }
            if miss.heard_as == Some(device) {
                return Reason::Contrast {
                    missed: self.devices[miss.device].clone(),
                };
            }
        }
        if let Some(confusion) = self.confusions_of(device).max_by_key(|named| named.times) {
            return Reason::HeardAs {
                other: confusion.heard_as,
                times: confusion.times,
            };
        }
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let percent = (share * 100.0).round() as u32;
        Reason::Due { percent }
    }
}

/// A place by lot: each as likely as its part, the more so the further it is behind.
fn drawn(shares: &[f64], credits: &[f64], random: &mut ChaCha8Rng) -> Option<usize> {
    let weights: Vec<f64> = shares
        .iter()
        .zip(credits)
        .map(|(share, credit)| share * libm::exp(CATCHING_UP * credit.clamp(-BEHIND, BEHIND)))
        .collect();
    let all: f64 = weights.iter().sum();
    // 32 random bits: the same on every machine.
    let mut left = all * f64::from(random.random::<u32>()) / f64::from(u32::MAX);
    let place = weights.iter().position(|weight| {
        left -= weight;
        left <= 0.0
    });
    place.or_else(|| weights.len().checked_sub(1))
}

/// No device is further behind, or ahead, than counts.
const BEHIND: f64 = 4.0;

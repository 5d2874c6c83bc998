//! How large a part of the questions each device is due.

use super::exemplar::stalled;
use super::fold::Scorer;
use super::settings::Wishes;

/// A device is mastered above this chance of a right answer.
const MASTERED: f64 = 0.85;

/// What a device is due when it is surely not mastered, and what weakness adds.
const LEARNING: f64 = 0.5;
const WEAKNESS: f64 = 1.5;

/// What is left of that while a device makes no headway: other things come first, and it
/// comes with easier exemplars and an explanation.
const STALLED: f64 = 0.7;

impl Scorer {
    /// The parts, 0 to 1, that the devices of `pool` are due among themselves.
    pub(super) fn shares(&self, pool: &[usize], wishes: &Wishes, now: u64) -> Vec<f64> {
        let mut weights: Vec<f64> = pool
            .iter()
            .map(|device| self.weight(*device, wishes, now))
            .collect();
        let sum: f64 = weights.iter().sum();
        if sum > 0.0 {
            for weight in &mut weights {
                *weight /= sum;
            }
        }
        weights
    }

    fn weight(&self, device: usize, wishes: &Wishes, now: u64) -> f64 {
        let floor = wishes.floor.clamp(0.0, 1.0);
        if wishes.pinned.contains(&self.devices[device]) {
            return floor + LEARNING + WEAKNESS;
        }
        let belief = self.belief(device, now);
        let response = self.reference();
        let threshold = response.ability_at(MASTERED);
        let unmastered = normal_below((threshold - belief.mean) / belief.deviation());
        let weakness = (1.0 - response.expected_nearly(belief)) / (1.0 - response.guess);
        let headway = if stalled(&self.tallies[device]) {
            STALLED
        } else {
            1.0
        };
        floor + headway * unmastered * (LEARNING + WEAKNESS * weakness)
    }
}

/// The chance that a standard normal lies below `z`.
fn normal_below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * std::f64::consts::FRAC_1_SQRT_2)
}

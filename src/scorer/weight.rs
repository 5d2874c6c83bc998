//! How large a part of the questions each device is due.

use super::exemplar::stalled;
use super::fold::Scorer;
use super::observation::Response;
use super::reach::Reach;
use super::settings::Wishes;

/// A device is mastered above this chance of a right answer.
const MASTERED: f64 = 0.84;

/// What a device is due in any case, when it is surely not mastered, and what weakness
/// adds.
const KEEPING: f64 = 0.03;
const LEARNING: f64 = 0.5;
const WEAKNESS: f64 = 0.8;

/// What is left of that while a device makes no headway: other things come first, and it
/// comes with easier exemplars and an explanation.
const STALLED: f64 = 0.5;

/// How far an answer's worth to a device goes into what it is due: half as much more or
/// less where it adds this much more or less than to all, in logits, within bounds.
const PACE: f64 = 0.06;
const WORTH: f64 = 0.5;
const SLOWEST: f64 = 0.1;
const FASTEST: f64 = 1.5;

/// No device of several gets more than this part, or it could be foretold.
const MOST: f64 = 0.5;

/// Spreads what is over the most among the others.
fn cap(shares: &mut [f64]) {
    let Some(most) = (0..shares.len()).find(|at| shares[*at] > MOST) else {
        return;
    };
    let others = 1.0 - shares[most];
    if shares.len() < 3 || others <= 0.0 {
        return;
    }
    for (at, share) in shares.iter_mut().enumerate() {
        *share = if at == most {
            MOST
        } else {
            *share * (1.0 - MOST) / others
        };
    }
}

impl Scorer {
    /// The parts, 0 to 1, that the devices of `pool` are due among themselves.
    pub(super) fn shares(&self, pool: &[usize], wishes: &Wishes, now: u64) -> Vec<f64> {
        let weights: Vec<f64> = pool
            .iter()
            .map(|device| self.weight(*device, wishes, now))
            .collect();
        let sum: f64 = weights.iter().sum();
        let floor = wishes.floor.clamp(0.0, 1.0);
        #[allow(clippy::cast_precision_loss)]
        let even = 1.0 / pool.len().max(1) as f64;
        let mut shares: Vec<f64> = weights
            .iter()
            .map(|weight| floor * even + (1.0 - floor) * weight / sum)
            .collect();
        cap(&mut shares);
        shares
    }

    fn weight(&self, device: usize, wishes: &Wishes, now: u64) -> f64 {
        if wishes.pinned.contains(&self.devices[device]) {
            return KEEPING + LEARNING + WEAKNESS;
        }
        let response = self.usual(&wishes.reach);
        let outlook = self.outlook(device, now, &response);
        let unmastered = outlook.unmastered(MASTERED, &response);
        let weakness = (1.0 - outlook.expected_nearly(&response)) / (1.0 - response.guess);
        // What is nearly mastered counts for less than in proportion: the last doubts cost
        // the most questions.
        let learning = unmastered * libm::sqrt(unmastered) * (LEARNING + WEAKNESS * weakness);
        KEEPING + self.headway(device) * learning
    }

    /// A middling exemplar of those within reach: what is well known elsewhere may still be
    /// hard here.
    pub(super) fn usual(&self, reach: &Reach) -> Response {
        let ease = self.model.ease(reach.at(0.5), reach.key_setting);
        let answers = if reach.answers == 1 { 2 } else { reach.answers };
        self.response(answers, ease * self.weight_of_ease())
    }

    /// How much a question to this device is worth beside one to another.
    fn headway(&self, device: usize) -> f64 {
        let pace = (1.0 + self.own_pace(device) / PACE).clamp(SLOWEST, FASTEST);
        let stalled = if stalled(&self.tallies[device]) {
            STALLED
        } else {
            1.0
        };
        stalled * (1.0 + WORTH * (pace - 1.0))
    }
}

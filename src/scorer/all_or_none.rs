//! Hearing that comes at once: the other way of learning that a learner is credited
//! with, beside growing a little with every answer.
//!
//! A device is not heard at all until, between two answers, it is; the chance that it is
//! heard by now follows from the answers (knowledge tracing: Corbett & Anderson 1995). Which
//! of the two ways describes a learner is learnt from which has foretold the answers better
//! (Bayesian model averaging), the old ones fading.

use super::observation::{Response, likelihood};

/// The chance that an answer brings a device that is not heard yet, and after how many
/// answers in vain it is believed to be half of that.
const LEARNING: f64 = 0.15;
const PATIENCE: f64 = 10.0;

/// The log odds that a learner nobody knows learns all or none, what they keep from one
/// answer to the next, and how far they may go to either side.
const ODDS: f64 = -2.0;
const KEPT: f64 = 0.998;
const FARTHEST: f64 = 6.0;

/// What a rate keeps of its count with every answer that falls to it.
const FADING: f64 = 0.99;

/// A rate, by right and wrong answers.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Rate {
    right: f64,
    wrong: f64,
}

impl Rate {
    fn new(rate: f64, answers: f64) -> Self {
        Self {
            right: rate * answers,
            wrong: (1.0 - rate) * answers,
        }
    }

    fn mean(self) -> f64 {
        self.right / (self.right + self.wrong)
    }

    fn count(&mut self, credit: f64, weight: f64) {
        let kept = 1.0 - (1.0 - FADING) * weight;
        self.right = self.right * kept + weight * credit;
        self.wrong = self.wrong * kept + weight * (1.0 - credit);
    }
}

/// What is believed of one learner, if hearing is all or none.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct AllOrNone {
    /// The chance that each device is heard, once it has been asked.
    heard: Vec<Option<f64>>,
    /// How many answers to each were in vain, as far as one can tell.
    vain: Vec<f64>,
    /// How often a device is named rightly before it is heard, and after.
    before: Rate,
    after: Rate,
    /// How often a device is heard when it is first asked.
    start: Rate,
    /// The log odds that the learner learns this way.
    odds: f64,
}

impl AllOrNone {
    pub(super) fn new(devices: usize) -> Self {
        Self {
            heard: vec![None; devices],
            vain: vec![0.0; devices],
            before: Rate::new(0.3, 20.0),
            after: Rate::new(0.9, 20.0),
            start: Rate::new(0.15, 4.0),
            odds: ODDS,
        }
    }

    /// The chance that the learner learns this way at all.
    pub(super) fn trust(&self) -> f64 {
        1.0 / (1.0 + libm::exp(-self.odds))
    }

    /// The chance that a device is heard, when it has kept this share of what it was.
    pub(super) fn heard(&self, device: usize, kept: f64) -> f64 {
        self.heard[device].map_or(self.start.mean(), |heard| heard * kept)
    }

    /// The chance of a right answer without hearing the device, and with.
    pub(super) fn chances(&self, response: &Response) -> (f64, f64) {
        (
            self.before.mean().max(response.guess),
            self.after.mean().max(response.guess),
        )
    }

    /// Takes in an answer worth `credit`, which the other way of learning had thought this
    /// `likely`; `share` is below 1 when several devices answer for it together.
    pub(super) fn learn(
        &mut self,
        device: usize,
        kept: f64,
        response: &Response,
        (credit, share): (f64, f64),
        likely: f64,
    ) {
        let heard = self.heard(device, kept);
        let (before, after) = self.chances(response);
        let with = heard * likelihood(after, credit, share);
        let without = (1.0 - heard) * likelihood(before, credit, share);
        let odds = self.odds * KEPT + libm::log((with + without) / likely);
        self.odds = odds.clamp(-FARTHEST, FARTHEST);
        let heard = with / (with + without);
        // What can be answered without hearing says little of either rate.
        let weight = share * (1.0 - response.guess - response.slip);
        self.after.count(credit, heard * weight);
        self.before.count(credit, (1.0 - heard) * weight);
        if self.heard[device].is_none() {
            self.start.count(heard, 1.0);
        }
        self.vain[device] += 1.0 - heard;
        let learning = LEARNING * PATIENCE / (PATIENCE + self.vain[device]);
        self.heard[device] = Some(heard + (1.0 - heard) * learning);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RESPONSE: Response = Response::EXAMPLE;

    /// Ten devices, each asked twenty times in turn; `credit` by its number of the answer.
    fn after(credit: impl Fn(usize) -> f64) -> AllOrNone {
        let mut belief = AllOrNone::new(10);
        for answer in 0..20 {
            for device in 0..10 {
                // The other way of learning, quite at a loss.
                belief.learn(device, 1.0, &RESPONSE, (credit(answer), 1.0), 0.5);
            }
        }
        belief
    }

    #[test]
    fn sudden_hearing_is_noticed_and_trusted() {
        let sudden = after(|answer| f64::from(u8::from(answer >= 10)));
        assert!(sudden.trust() > 0.9, "{}", sudden.trust());
        assert!(sudden.heard(3, 1.0) > 0.95);
        let (without, with) = sudden.chances(&RESPONSE);
        assert!(without < 0.25 && with > 0.9, "{without} {with}");
        let never = after(|_| 0.0);
        assert!(never.heard(3, 1.0) < 0.3, "{}", never.heard(3, 1.0));
    }

    #[test]
    fn what_alternates_is_not_all_or_none() {
        let belief = after(|answer| (answer % 2) as f64);
        assert!(belief.trust() < 0.5, "{}", belief.trust());
    }

    #[test]
    fn one_answer_moves_the_belief_as_bayes_says() {
        let mut belief = AllOrNone::new(1);
        belief.learn(0, 1.0, &RESPONSE, (1.0, 1.0), 0.5);
        // By hand: 0.15 · 0.9 / (0.15 · 0.9 + 0.85 · 0.3), then learnt with a chance of 0.15.
        let heard = 0.135 / (0.135 + 0.255);
        let learning = 0.15 * 10.0 / (10.0 + 1.0 - heard);
        let expected = heard + (1.0 - heard) * learning;
        assert!((belief.heard(0, 1.0) - expected).abs() < 1e-12);
        let odds = ODDS * KEPT + libm::log(0.39 / 0.5);
        assert!((belief.odds - odds).abs() < 1e-12);
    }
}

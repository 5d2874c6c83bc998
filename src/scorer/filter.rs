//! The belief about one learner, taken one answer at a time.
//!
//! A right answer may be due to the device's own ability, to the learner's general shift
//! since the beginning, to the practice the device has had, to its having just been
//! asked, to the ease of the exemplar, or to the learner's devices lying further apart
//! than most. Each takes its part of the surprise, by how little is known of it; what they
//! have in common is neglected, except within and between families.

use super::ability::Gaussian;
use super::family::Abilities;
use super::model::{MIDDLE, Model};
use super::observation::Response;

/// All that is believed of one learner.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Filter {
    model: Model,
    abilities: Abilities,
    /// What has been added to all abilities together, in logits: growth, and the mood.
    shift: Gaussian,
    /// What an answer to a device adds to its ability.
    pace: Gaussian,
    /// What more or less than that it adds to each device: some do not move at all.
    own_paces: Vec<Gaussian>,
    /// What it adds that the question before asked for the same device: for some learners
    /// a help, for some a hindrance.
    repetition: Gaussian,
    /// How much further from the middle this learner's abilities lie than is believed, as
    /// a part of the distance.
    stretch: Gaussian,
    /// How much more than is believed of all the ease of an exemplar weighs.
    ease: Gaussian,
    /// The running mean of the abilities that were asked for, in logits.
    middle: f64,
}

/// What went before a question to a device.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Before {
    /// Time since its last answer, in milliseconds.
    pub(super) since: u64,
    /// Answers it has had.
    pub(super) answers: u32,
    /// The question before asked for it too.
    pub(super) repeated: bool,
    /// How much easier than a middling exemplar it is, in logits.
    pub(super) ease: f64,
}

impl Filter {
    pub(super) fn new(family_of: Vec<usize>, model: &Model) -> Self {
        Self {
            shift: Gaussian {
                mean: 0.0,
                variance: 0.0,
            },
            pace: model.pace,
            own_paces: vec![model.own_pace; family_of.len()],
            repetition: model.repetition,
            stretch: model.stretch,
            ease: model.ease,
            middle: model.learner_mean,
            abilities: Abilities::new(family_of, model),
            model: model.clone(),
        }
    }

    /// The ability in a device, in logits.
    pub(super) fn belief(&self, device: usize, before: &Before) -> Gaussian {
        let (kept, noise) = self.model.forgetting(before.since);
        let own = self.abilities.of_after(device, kept, noise);
        self.with_others(device, own, before)
    }

    /// What the ease of an exemplar weighs, in units of what is believed of all.
    pub(super) fn weight_of_ease(&self) -> f64 {
        1.0 + self.ease.mean
    }

    /// What an answer is believed to add to a device, over what it adds to all, in logits.
    pub(super) fn own_pace(&self, device: usize) -> f64 {
        self.own_paces[device].mean
    }

    fn with_others(&self, device: usize, own: Gaussian, before: &Before) -> Gaussian {
        let practice = self
            .pace
            .plus(self.own_paces[device])
            .times(Model::practice(before.answers));
        let stretched = self.stretch.times(own.mean - self.middle);
        let eased = self.ease.times(before.ease);
        let sum = own
            .plus(self.shift)
            .plus(practice)
            .plus(stretched)
            .plus(eased);
        if before.repeated {
            sum.plus(self.repetition)
        } else {
            sum
        }
    }

    /// Takes in an answer worth `credit`, 0 to 1; `share` is below 1 when several devices
    /// answer for it together. Tells how likely the answer was.
    pub(super) fn learn(
        &mut self,
        device: usize,
        before: &Before,
        response: &Response,
        credit: f64,
        share: f64,
    ) -> f64 {
        if before.since > 0 {
            let (kept, noise) = self.model.forgetting(before.since);
            self.abilities.drift(device, kept, noise);
        }
        self.shift.variance += self.model.shift_an_answer;
        let own = self.abilities.of(device);
        let expected = self.with_others(device, own, before);
        let (found, likely) = response.after(expected, credit, share);
        let practice = Model::practice(before.answers);
        self.shift = self.shift.condition(1.0, expected, found);
        self.pace = self.pace.condition(practice, expected, found);
        self.own_paces[device] = self.own_paces[device].condition(practice, expected, found);
        self.ease = self.ease.condition(before.ease, expected, found);
        let from_middle = own.mean - self.middle;
        self.stretch = self.stretch.condition(from_middle, expected, found);
        self.middle += MIDDLE * from_middle;
        if before.repeated {
            self.repetition = self.repetition.condition(1.0, expected, found);
        }
        let evidence = own.evidence(own.condition(1.0, expected, found));
        let (kept, noise) = self.model.answering();
        self.abilities
            .learn_and_drift(device, evidence, kept, noise);
        likely
    }
}

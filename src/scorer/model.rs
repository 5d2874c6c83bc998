//! The numbers of the learner's model, frozen: they are fitted on simulated learners and
//! on answers that no test looks at, and change only together with the figures in
//! DEVELOPERS.md.

use crate::journal::{Difficulty, KeySetting};

const DAY: f64 = 86_400_000.0;

/// How abilities are spread, how they drift, and how an answer comes about.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Model {
    /// The ability of a learner nobody knows yet, in logits.
    pub(super) learner_mean: f64,
    pub(super) learner_variance: f64,
    pub(super) family_variance: f64,
    pub(super) device_variance: f64,
    /// What ln(1 + right answers) to a device adds to its ability.
    pub(super) wins: f64,
    /// What ln(1 + wrong answers) adds.
    pub(super) misses: f64,
    /// The share of its deviation that a device keeps from one of its answers to the next.
    pub(super) kept_an_answer: f64,
    /// The days after which half of a deviation is left: forgetting.
    pub(super) half_life: f64,
    /// How often a known answer is missed all the same.
    pub(super) slip: f64,
}

impl Model {
    pub(super) const FROZEN: Self = Self {
        learner_mean: 0.0,
        learner_variance: 1.0,
        family_variance: 0.3,
        device_variance: 0.8,
        wins: 0.4,
        misses: 0.0,
        kept_an_answer: 0.99,
        half_life: 120.0,
        slip: 0.03,
    };

    /// The share of a deviation that is left after this time (ms), and the variance that
    /// has come in its place.
    pub(super) fn forgetting(&self, milliseconds: u64) -> (f64, f64) {
        #[allow(clippy::cast_precision_loss)]
        let days = milliseconds as f64 / DAY;
        self.drift(libm::exp2(-days / self.half_life))
    }

    pub(super) fn practice(&self) -> (f64, f64) {
        self.drift(self.kept_an_answer)
    }

    fn drift(&self, kept: f64) -> (f64, f64) {
        (kept, self.device_variance * (1.0 - kept * kept))
    }

    /// What practice of the device has added, in logits.
    pub(super) fn practised(&self, wins: f64, misses: f64) -> f64 {
        self.wins * libm::log1p(wins) + self.misses * libm::log1p(misses)
    }

    /// How much easier (positive) than a middling exemplar this one is, in logits.
    pub(super) fn ease(&self, difficulty: Difficulty, key_setting: KeySetting) -> f64 {
        let hard = |feature: f64| feature.clamp(0.0, 1.0) - 0.5;
        let key = match key_setting {
            KeySetting::Cadence => 0.0,
            KeySetting::Tonic => 0.25,
            KeySetting::Nothing => 0.6,
        };
        -(0.6 * hard(difficulty.inversion)
            + 0.5 * hard(difficulty.texture)
            + 0.5 * hard(difficulty.tempo)
            + 0.8 * hard(difficulty.similarity)
            + key)
    }
}

/// The chance of a blind guess with this many answers on offer; none when typed.
pub(super) fn guess(answers: u32) -> f64 {
    if answers == 0 {
        0.0
    } else {
        1.0 / f64::from(answers)
    }
}

/// How fast counts fade.
pub(super) mod fading {
    /// What a count keeps from one answer to the same device to the next: half of it is
    /// left after 35.
    pub(crate) const ANSWER: f64 = 0.98;

    /// What a device's part of the recent questions keeps from one question to the next.
    const TURN: f64 = 0.98;

    /// What is left of a part after this many questions.
    pub(crate) fn turns(questions: i32) -> f64 {
        libm::pow(TURN, f64::from(questions))
    }
}

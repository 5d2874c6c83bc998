//! The numbers of the learner's model, frozen: they are fitted on simulated learners and
//! on answers that no test looks at, and change only together with the figures in
//! docs/learner.md.

use super::ability::Gaussian;
use crate::journal::{Difficulty, KeySetting};

/// How fast the middle of a learner's abilities is followed, an answer.
pub(super) const MIDDLE: f64 = 0.01;

/// So many answers to a device train it; later ones keep it.
const PRACTICE: u32 = 18;

const DAY: f64 = 86_400_000.0;

/// How abilities are spread, how they drift, and how an answer comes about.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Model {
    /// The ability of a learner nobody knows yet, in logits.
    pub(super) learner_mean: f64,
    pub(super) learner_variance: f64,
    pub(super) family_variance: f64,
    pub(super) device_variance: f64,
    /// The share of its deviation that a device keeps from one of its answers to the next.
    pub(super) kept_an_answer: f64,
    /// The days after which half of a deviation is left: forgetting.
    pub(super) half_life: f64,
    /// The variance that the general shift of a learner gains with every answer.
    pub(super) shift_an_answer: f64,
    /// What an answer is believed to add before anything is known of the learner.
    pub(super) pace: Gaussian,
    /// What more or less it is believed to add to a device before that has been asked.
    pub(super) own_pace: Gaussian,
    /// What a repetition is believed to add before anything is known of the learner.
    pub(super) repetition: Gaussian,
    /// How much further apart the devices of this learner lie than is believed of all, as
    /// a part.
    pub(super) stretch: Gaussian,
    /// What the ease of an exemplar weighs for this learner, over what it weighs for all.
    pub(super) ease: Gaussian,
    /// How often a known answer is missed all the same.
    pub(super) slip: f64,
}

impl Model {
    pub(super) const FROZEN: Self = Self {
        learner_mean: 0.3,
        learner_variance: 0.5,
        family_variance: 0.1,
        device_variance: 0.3,
        kept_an_answer: 0.99,
        half_life: 60.0,
        shift_an_answer: 0.000_6,
        pace: Gaussian {
            mean: 0.06,
            variance: 0.003,
        },
        own_pace: Gaussian {
            mean: 0.0,
            variance: 0.0015,
        },
        repetition: Gaussian {
            mean: 0.12,
            variance: 0.4,
        },
        stretch: Gaussian {
            mean: 0.0,
            variance: 0.6,
        },
        ease: Gaussian {
            mean: 0.0,
            variance: 0.1,
        },
        slip: 0.05,
    };

    /// The share of a deviation that is left after this time (ms), and the variance that
    /// has come in its place.
    pub(super) fn forgetting(&self, milliseconds: u64) -> (f64, f64) {
        #[allow(clippy::cast_precision_loss)]
        let days = milliseconds as f64 / DAY;
        self.drift(libm::exp2(-days / self.half_life))
    }

    /// The same from one of a device's answers to the next.
    pub(super) fn answering(&self) -> (f64, f64) {
        self.drift(self.kept_an_answer)
    }

    fn drift(&self, kept: f64) -> (f64, f64) {
        (kept, self.device_variance * (1.0 - kept * kept))
    }

    /// How many of a device's answers count as practice: the first ones.
    pub(super) fn practice(answers: u32) -> f64 {
        f64::from(answers.min(PRACTICE))
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

/// The chance of being right without hearing, with this many answers on offer (0: typed).
/// It is less than a blind guess, the more so the fewer there are: who does not hear a
/// device takes it for its neighbour.
pub(super) fn guess(answers: u32) -> f64 {
    match answers {
        0 => return 0.0,
        // It was given away.
        1 => return 1.0,
        _ => {}
    }
    let blind = 1.0 / f64::from(answers);
    blind * (1.0 - blind)
}

/// How fast counts fade.
pub(super) mod fading {
    /// What a count keeps from one answer to the same device to the next: half of it is
    /// left after 35.
    pub(crate) const ANSWER: f64 = 0.98;

    /// What a device's part of the recent questions keeps from one question to the next.
    const TURN: f64 = 0.98;

    /// What is left of a part after this many questions.
    pub(crate) fn turns(questions: u64) -> f64 {
        // A power by squaring: far quicker than one of any real exponent.
        let (mut left, mut square, mut power) = (questions, TURN, 1.0);
        while left > 0 {
            if left % 2 == 1 {
                power *= square;
            }
            square *= square;
            left /= 2;
        }
        power
    }
}

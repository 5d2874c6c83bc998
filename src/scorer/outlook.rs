//! How likely a right answer is, whichever way the learner learns.

use super::ability::Gaussian;
use super::observation::Response;

/// Halvings of the range of chances in which a bound is looked for.
const HALVINGS: u32 = 30;

/// What is believed of one device: both ways of learning, and how far to trust each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Outlook {
    /// The ability, if it grows, in logits.
    pub(super) ability: Gaussian,
    /// The chance that the device is heard, if hearing is all or none.
    pub(super) heard: f64,
    /// The chance of a right answer without hearing it then, and with.
    pub(super) chances: (f64, f64),
    /// The chance that hearing is all or none with this learner.
    pub(super) trust: f64,
}

impl Outlook {
    /// The chance of a right answer.
    pub(super) fn expected(&self, response: &Response) -> f64 {
        self.mixed(response.expected(self.ability), self.all_or_none())
    }

    /// [`Self::expected`] nearly, at a fraction of the work.
    pub(super) fn expected_nearly(&self, response: &Response) -> f64 {
        self.mixed(response.expected_nearly(self.ability), self.all_or_none())
    }

    /// The chance that the device is not mastered: its chance of a right answer below this
    /// one if it grows, not heard yet if learning is all or none.
    pub(super) fn unmastered(&self, mastered: f64, response: &Response) -> f64 {
        self.mixed(self.grown_below(mastered, response), 1.0 - self.heard)
    }

    /// The chance of a right answer lies below this with the certainty given.
    pub(super) fn bound(&self, certainty: f64, response: &Response) -> f64 {
        let (mut low, mut high) = (response.guess, 1.0 - response.slip);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.below(middle, response) < certainty {
                low = middle;
            } else {
                high = middle;
            }
        }
        0.5 * (low + high)
    }

    fn all_or_none(&self) -> f64 {
        self.heard * self.chances.1 + (1.0 - self.heard) * self.chances.0
    }

    fn mixed(&self, growing: f64, all_or_none: f64) -> f64 {
        (1.0 - self.trust) * growing + self.trust * all_or_none
    }

    /// How sure it is that the chance of a right answer lies below this.
    pub(super) fn below(&self, chance: f64, response: &Response) -> f64 {
        let part = |at: f64, weight: f64| if at < chance { weight } else { 0.0 };
        let (without, with) = self.chances;
        let all_or_none = part(without, 1.0 - self.heard) + part(with, self.heard);
        self.mixed(self.grown_below(chance, response), all_or_none)
    }

    fn grown_below(&self, chance: f64, response: &Response) -> f64 {
        let line = response.ability_at(chance);
        normal_below((line - self.ability.mean) / self.ability.deviation())
    }
}

/// The chance that a standard normal lies below `z`.
fn normal_below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * std::f64::consts::FRAC_1_SQRT_2)
}

#[cfg(test)]
mod tests {
    use super::*;

    const RESPONSE: Response = Response::EXAMPLE;

    fn outlook(trust: f64) -> Outlook {
        Outlook {
            ability: Gaussian {
                mean: 0.5,
                variance: 0.4,
            },
            heard: 0.6,
            chances: (0.3, 0.9),
            trust,
        }
    }

    #[test]
    fn growth_alone_is_bounded_by_its_normal_quantiles() {
        // 1.96 standard deviations to either side hold 95 % (Abramowitz & Stegun 26.2).
        let spread = 1.959_963_984_540_054 * libm::sqrt(0.4);
        for (certainty, side) in [(0.025, -spread), (0.975, spread)] {
            let bound = outlook(0.0).bound(certainty, &RESPONSE);
            assert!((bound - RESPONSE.chance(0.5 + side)).abs() < 1e-6);
        }
    }

    #[test]
    fn all_or_none_alone_is_bounded_by_its_two_chances() {
        let belief = outlook(1.0);
        assert!((belief.bound(0.3, &RESPONSE) - 0.3).abs() < 1e-6);
        assert!((belief.bound(0.5, &RESPONSE) - 0.9).abs() < 1e-6);
        assert!((belief.expected(&RESPONSE) - (0.6 * 0.9 + 0.4 * 0.3)).abs() < 1e-12);
        assert!((belief.unmastered(0.85, &RESPONSE) - 0.4).abs() < 1e-12);
    }
}

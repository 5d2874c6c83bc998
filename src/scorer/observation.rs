//! One answer as evidence: a guess, a slip, or what the ability says.

use super::ability::Gaussian;

/// Gauss-Hermite nodes and weights of 11 points for the standard normal distribution: the
/// positive half, outwards. The rule is Abramowitz & Stegun 25.4.46; the numbers are those
/// of numpy's `hermegauss(11)`, the weights over √(2π).
const NODES: [(f64, f64); 5] = [
    (0.928_868_997_381_064, 0.242_240_299_873_969_93),
    (1.876_035_020_154_846, 0.066_138_746_071_057_78),
    (2.865_123_160_643_645, 0.006_720_285_235_537_27),
    (3.936_166_607_129_977, 0.000_195_671_930_271_223_6),
    (5.188_001_224_374_87, 8.121_849_790_214_91e-7),
];

/// The weight of the node at 0.
const MIDDLE: f64 = 0.369_408_369_408_369_4;

/// Below this no likelihood falls, so that one absurd answer cannot decide everything.
const FLOOR: f64 = 1e-9;

/// How an answer comes about.
#[derive(Clone, Copy, Debug)]
pub(super) struct Response {
    /// Chance of being right without hearing anything.
    pub(super) guess: f64,
    /// Chance of being wrong in spite of hearing.
    pub(super) slip: f64,
    /// Added to the ability, in logits: practice and the ease of the exemplar.
    pub(super) offset: f64,
}

impl Response {
    /// The chance of a right answer at this ability.
    pub(super) fn chance(&self, ability: f64) -> f64 {
        let heard = 1.0 / (1.0 + libm::exp(-(ability + self.offset)));
        self.guess + (1.0 - self.guess - self.slip) * heard
    }

    /// The ability at which the chance is this; the chance lies between guess and slip.
    pub(super) fn ability_at(&self, chance: f64) -> f64 {
        let heard = (chance - self.guess) / (1.0 - self.guess - self.slip);
        libm::log(heard / (1.0 - heard)) - self.offset
    }

    /// The chance of a right answer, averaged over what is not known of the ability.
    pub(super) fn expected(&self, belief: Gaussian) -> f64 {
        let mut sum = 0.0;
        points(belief, |ability, weight| {
            sum += weight * self.chance(ability);
        });
        sum
    }

    /// [`Self::expected`] nearly, at a fraction of the work (MacKay 1992, the logistic
    /// function averaged over a Gaussian): good to a hundredth.
    pub(super) fn expected_nearly(&self, belief: Gaussian) -> f64 {
        let squeeze = libm::sqrt(1.0 + std::f64::consts::PI / 8.0 * belief.variance);
        let heard = 1.0 / (1.0 + libm::exp(-(belief.mean + self.offset) / squeeze));
        self.guess + (1.0 - self.guess - self.slip) * heard
    }

    /// The belief after an answer worth `credit`, and how likely that was; `share` is below
    /// 1 when several devices answer for it together.
    pub(super) fn after(&self, belief: Gaussian, credit: f64, share: f64) -> (Gaussian, f64) {
        let deviation = belief.deviation();
        let heard = 1.0 - self.guess - self.slip;
        let likelihood = |hearing| likelihood(self.guess + heard * hearing, credit, share);
        // The odds against hearing at the middle; those at a pair of nodes around it are
        // as many times more and less, which saves half of the exponentials.
        let deaf = libm::exp(-(belief.mean + self.offset));
        let mut total = MIDDLE * likelihood(1.0 / (1.0 + deaf));
        let (mut first, mut second) = (0.0, 0.0);
        for (node, weight) in NODES {
            let away = node * deviation;
            let odds = libm::exp(away);
            let below = weight * likelihood(1.0 / (1.0 + deaf * odds));
            let above = weight * likelihood(odds / (odds + deaf));
            total += below + above;
            first += (above - below) * away;
            second += (above + below) * away * away;
        }
        let away = first / total;
        let after = Gaussian {
            mean: belief.mean + away,
            variance: second / total - away * away,
        };
        (after, total)
    }
}

#[cfg(test)]
impl Response {
    /// Ten answers on offer, a middling exemplar.
    pub(super) const EXAMPLE: Self = Self {
        guess: 0.1,
        slip: 0.05,
        offset: 0.0,
    };
}

/// How likely an answer worth `credit` is where the chance of a right one is `chance`.
pub(super) fn likelihood(chance: f64, credit: f64, share: f64) -> f64 {
    let (right, wrong) = (chance.max(FLOOR), (1.0 - chance).max(FLOOR));
    let alone = if credit >= 1.0 {
        right
    } else if credit <= 0.0 {
        wrong
    } else {
        part(right, wrong, credit)
    };
    // Mostly one to three devices answer for a slot, and roots are quicker than powers.
    if share >= 1.0 {
        alone
    } else if share >= 0.5 {
        libm::sqrt(alone)
    } else if share >= 1.0 / 3.0 {
        libm::cbrt(alone)
    } else {
        libm::pow(alone, share)
    }
}

/// Right so far as the credit goes, and wrong for the rest. Credits are halves and quarters,
/// and roots are quicker than powers.
fn part(right: f64, wrong: f64, credit: f64) -> f64 {
    let half = libm::sqrt(right * wrong);
    if credit == 0.5 {
        half
    } else if credit == 0.25 {
        libm::sqrt(half * wrong)
    } else {
        libm::exp(credit * libm::log(right) + (1.0 - credit) * libm::log(wrong))
    }
}

fn points(belief: Gaussian, mut each: impl FnMut(f64, f64)) {
    let deviation = belief.deviation();
    each(belief.mean, MIDDLE);
    for (node, weight) in NODES {
        each(belief.mean - node * deviation, weight);
        each(belief.mean + node * deviation, weight);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn eleven_points_integrate_even_powers_exactly() {
        let belief = Gaussian {
            mean: 0.0,
            variance: 1.0,
        };
        // Gaussian of the standard normal: 1, 1, 3, 15, 105, 945, 10395.
        for (power, moment) in [
            (0, 1.0),
            (2, 1.0),
            (4, 3.0),
            (6, 15.0),
            (8, 105.0),
            (12, 10_395.0),
        ] {
            let mut sum = 0.0;
            points(belief, |x, weight| sum += weight * x.powi(power));
            assert!((sum / moment - 1.0).abs() < 1e-12, "power {power}: {sum}");
        }
    }

    #[test]
    fn the_chance_runs_from_guess_to_slip() {
        let response = Response {
            guess: 0.2,
            slip: 0.03,
            offset: 0.0,
        };
        assert!((response.chance(-50.0) - 0.2).abs() < 1e-12);
        assert!((response.chance(50.0) - 0.97).abs() < 1e-12);
        assert!((response.chance(0.0) - (0.2 + 0.77 / 2.0)).abs() < 1e-12);
    }

    #[test]
    fn the_short_cut_is_good_to_a_hundredth() {
        let response = Response {
            guess: 0.1,
            slip: 0.05,
            offset: 0.0,
        };
        for (mean, variance) in [(0.0, 0.5), (1.5, 1.0), (-2.0, 2.0), (3.0, 0.3)] {
            let belief = Gaussian { mean, variance };
            let away = response.expected(belief) - response.expected_nearly(belief);
            assert!(away.abs() < 0.01, "{away} at {mean}, {variance}");
        }
    }

    #[test]
    fn roots_are_the_powers_that_they_stand_for() {
        for credit in [0.5, 0.25, 0.75, 0.1] {
            for share in [1.0, 0.5, 1.0 / 3.0, 0.25] {
                let chance: f64 = 0.7;
                let power = chance.powf(credit) * (1.0 - chance).powf(1.0 - credit);
                let away = likelihood(chance, credit, share) - power.powf(share);
                assert!(away.abs() < 1e-12, "{credit} {share}: {away}");
            }
        }
    }

    #[test]
    fn a_right_answer_raises_the_belief_and_a_wrong_one_lowers_it() {
        let belief = Gaussian {
            mean: 0.3,
            variance: 1.5,
        };
        let response = Response {
            guess: 0.1,
            slip: 0.03,
            offset: 0.0,
        };
        let after = |credit| response.after(belief, credit, 1.0).0;
        assert!(after(1.0).mean > belief.mean);
        assert!(after(0.0).mean < belief.mean);
        assert!(after(0.5).mean < after(1.0).mean && after(0.5).mean > after(0.0).mean);
        assert!(after(1.0).variance < belief.variance);
    }

    #[test]
    fn a_blind_guess_teaches_nothing() {
        let belief = Gaussian {
            mean: 0.3,
            variance: 1.5,
        };
        let response = Response {
            guess: 0.97,
            slip: 0.03,
            offset: 0.0,
        };
        let (after, likely) = response.after(belief, 1.0, 1.0);
        assert!((likely - 0.97).abs() < 1e-12);
        assert!((after.mean - belief.mean).abs() < 1e-9);
        assert!((after.variance - belief.variance).abs() < 1e-9);
    }
}

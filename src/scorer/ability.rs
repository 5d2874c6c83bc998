//! The belief about one device, as a Gaussian in information form.
//!
//! A device's ability is its family's level plus a deviation of its own, in logits. The
//! belief is kept over that pair, so that a family can later ask the device what it has
//! learnt about the level. Adding evidence touches two numbers, and the deviation drifts
//! in time without disturbing any other device.

/// A Gaussian by its precision and its precision times mean.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct CanonicalForm {
    pub(super) precision: f64,
    pub(super) weighted: f64,
}

impl CanonicalForm {
    pub(super) fn new(mean: f64, variance: f64) -> Self {
        Self {
            precision: 1.0 / variance,
            weighted: mean / variance,
        }
    }

    pub(super) fn and(self, other: Self) -> Self {
        Self {
            precision: self.precision + other.precision,
            weighted: self.weighted + other.weighted,
        }
    }

    /// The same belief seen through a further Gaussian step of this variance.
    pub(super) fn add_noise(self, variance: f64) -> Self {
        let shrink = 1.0 / (1.0 + variance * self.precision);
        Self {
            precision: self.precision * shrink,
            weighted: self.weighted * shrink,
        }
    }
}

/// A Gaussian by its mean and variance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Gaussian {
    pub(super) mean: f64,
    pub(super) variance: f64,
}

impl Gaussian {
    pub(super) fn canonical_form(self) -> CanonicalForm {
        CanonicalForm::new(self.mean, self.variance)
    }

    /// The sum of two quantities that are believed independently.
    pub(super) fn plus(self, other: Self) -> Self {
        Self {
            mean: self.mean + other.mean,
            variance: self.variance + other.variance,
        }
    }

    /// This quantity so many times.
    pub(super) fn times(self, count: f64) -> Self {
        Self {
            mean: self.mean * count,
            variance: self.variance * count * count,
        }
    }

    /// This quantity, which enters a sum `count` times, once the belief about the sum has
    /// gone from `before` to `after`.
    pub(super) fn condition(self, count: f64, before: Self, after: Self) -> Self {
        let gain = count * self.variance / before.variance;
        Self {
            mean: self.mean + gain * (after.mean - before.mean),
            variance: self.variance + gain * gain * (after.variance - before.variance),
        }
    }

    /// What turned this belief into `after`.
    pub(super) fn evidence(self, after: Self) -> CanonicalForm {
        let (before, after) = (self.canonical_form(), after.canonical_form());
        CanonicalForm {
            precision: after.precision - before.precision,
            weighted: after.weighted - before.weighted,
        }
    }

    pub(super) fn deviation(self) -> f64 {
        libm::sqrt(self.variance)
    }
}

/// What the answers to one device say about (level of the family, own deviation).
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Ability {
    level: f64,
    cross: f64,
    own: f64,
    weighted_level: f64,
    weighted_own: f64,
}

impl Ability {
    /// Nothing heard yet: the deviation is 0, give or take this variance.
    pub(super) fn unheard(variance: f64) -> Self {
        Self {
            level: 0.0,
            cross: 0.0,
            own: 1.0 / variance,
            weighted_level: 0.0,
            weighted_own: 0.0,
        }
    }

    /// The ability, given what the rest of the family says about the level.
    pub(super) fn ability(self, level: CanonicalForm) -> Gaussian {
        let a = self.level + level.precision;
        let h = self.weighted_level + level.weighted;
        let (b, c) = (self.cross, self.own);
        let determinant = a * c - b * b;
        Gaussian {
            mean: (c * h - b * self.weighted_own + a * self.weighted_own - b * h) / determinant,
            variance: (a + c - 2.0 * b) / determinant,
        }
    }

    /// What the answers say about the level alone.
    pub(super) fn about_level(self) -> CanonicalForm {
        let gain = self.cross / self.own;
        CanonicalForm {
            precision: self.level - gain * self.cross,
            weighted: self.weighted_level - gain * self.weighted_own,
        }
    }

    /// Takes in evidence on the ability.
    pub(super) fn learn(&mut self, evidence: CanonicalForm) {
        self.level += evidence.precision;
        self.cross += evidence.precision;
        self.own += evidence.precision;
        self.weighted_level += evidence.weighted;
        self.weighted_own += evidence.weighted;
    }

    /// Lets the deviation drift: it keeps the share `kept` of itself and gains `noise` in
    /// variance.
    pub(super) fn drift(&mut self, kept: f64, noise: f64) {
        let spread = noise * self.own + kept * kept;
        self.level -= self.cross * self.cross * noise / spread;
        self.weighted_level -= self.cross * self.weighted_own * noise / spread;
        self.cross *= kept / spread;
        self.weighted_own *= kept / spread;
        self.own /= spread;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The same two variables by their covariance, updated the textbook way.
    struct Covariance {
        mean: [f64; 2],
        cov: [[f64; 2]; 2],
    }

    impl Covariance {
        fn observe(&mut self, value: f64, variance: f64) {
            let ph = [
                self.cov[0][0] + self.cov[0][1],
                self.cov[1][0] + self.cov[1][1],
            ];
            let s = ph[0] + ph[1] + variance;
            let surprise = value - self.mean[0] - self.mean[1];
            for (mean, gain) in self.mean.iter_mut().zip(ph) {
                *mean += gain / s * surprise;
            }
            for (row, gain) in self.cov.iter_mut().zip(ph) {
                row[0] -= gain * ph[0] / s;
                row[1] -= gain * ph[1] / s;
            }
        }

        fn drift(&mut self, kept: f64, noise: f64) {
            self.mean[1] *= kept;
            self.cov[0][1] *= kept;
            self.cov[1][0] *= kept;
            self.cov[1][1] = self.cov[1][1] * kept * kept + noise;
        }
    }

    #[test]
    fn agrees_with_the_kalman_filter_in_covariance_form() {
        let level = CanonicalForm::new(0.4, 1.7);
        let mut ability = Ability::unheard(0.8);
        let mut dense = Covariance {
            mean: [0.4, 0.0],
            cov: [[1.7, 0.0], [0.0, 0.8]],
        };
        for (value, variance, kept) in [(1.0, 2.0, 0.9), (-0.5, 4.0, 1.0), (2.5, 1.1, 0.97)] {
            ability.learn(CanonicalForm::new(value, variance));
            dense.observe(value, variance);
            let noise = 0.8 * (1.0 - kept * kept);
            ability.drift(kept, noise);
            dense.drift(kept, noise);
            let found = ability.ability(level);
            let mean = dense.mean[0] + dense.mean[1];
            let variance = dense.cov[0][0] + 2.0 * dense.cov[0][1] + dense.cov[1][1];
            assert!((found.mean - mean).abs() < 1e-12);
            assert!((found.variance - variance).abs() < 1e-12);
            let about = ability.about_level().and(level);
            assert!((about.weighted / about.precision - dense.mean[0]).abs() < 1e-12);
            assert!((1.0 / about.precision - dense.cov[0][0]).abs() < 1e-12);
        }
    }
}

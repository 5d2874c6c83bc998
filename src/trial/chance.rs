//! Random draws, by a named generator.

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Draws of one purpose. Two of the same seed and purpose give the same draws, so that
/// every policy meets the same learner.
#[derive(Clone, Debug)]
pub(super) struct Chance(ChaCha8Rng);

impl Chance {
    pub(super) fn new(seed: u64, purpose: u64) -> Self {
        let mut generator = ChaCha8Rng::seed_from_u64(seed);
        generator.set_stream(purpose);
        Self(generator)
    }

    /// From 0 up to, not including, 1.
    pub(super) fn unit(&mut self) -> f64 {
        // 53 random bits over 2^53: the same on every machine.
        #[allow(clippy::cast_precision_loss)]
        let bits = (self.0.random::<u64>() >> 11) as f64;
        bits / 9_007_199_254_740_992.0
    }

    pub(super) fn happens(&mut self, chance: f64) -> bool {
        self.unit() < chance
    }

    /// From 0 up to, not including, `count`.
    pub(super) fn below(&mut self, count: usize) -> usize {
        self.0.random_range(0..count as u64) as usize
    }

    /// A standard normal draw (Box & Muller 1958).
    pub(super) fn normal(&mut self) -> f64 {
        let radius = libm::sqrt(-2.0 * libm::log(1.0 - self.unit()));
        radius * libm::cos(std::f64::consts::TAU * self.unit())
    }

    /// A gamma draw of this whole-number shape, as a sum of exponential ones.
    pub(super) fn gamma(&mut self, shape: u32) -> f64 {
        (0..shape).map(|_| -libm::log(1.0 - self.unit())).sum()
    }

    /// One of these values, each as likely as any other.
    pub(super) fn one_of(&mut self, values: &[f64]) -> f64 {
        values[self.below(values.len())]
    }

    /// For draws that others make.
    pub(super) fn generator(&mut self) -> &mut ChaCha8Rng {
        &mut self.0
    }

    pub(super) fn shuffle(&mut self, items: &mut [usize]) {
        for last in (1..items.len()).rev() {
            items.swap(last, self.below(last + 1));
        }
    }
}

//! The one source of variation in an arrangement: the same number, the same choices on
//! every machine.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// What the numbers are drawn for; each purpose has a stream of its own.
#[derive(Clone, Copy)]
pub(super) enum Purpose {
    Voicing = 1,
    Touch = 2,
    Comping = 3,
    Walking = 4,
    Melody = 5,
    Drums = 6,
}

pub(super) struct Chance(ChaCha8Rng);

impl Chance {
    pub(super) fn new(variation: u64, purpose: Purpose) -> Self {
        let mut seed = [0; 32];
        seed[..8].copy_from_slice(&variation.to_le_bytes());
        let mut generator = ChaCha8Rng::from_seed(seed);
        generator.set_stream(purpose as u64);
        Self(generator)
    }

    /// Goes to a place in the stream, whatever was drawn before.
    pub(super) fn go_to(&mut self, place: u64) {
        self.0.set_word_pos(u128::from(place));
    }

    /// A number from 0 up to, but not including, `bound`.
    pub(super) fn below(&mut self, bound: u16) -> i32 {
        let scaled = u64::from(self.0.next_u32()) * u64::from(bound);
        (scaled >> 32) as i32
    }
}

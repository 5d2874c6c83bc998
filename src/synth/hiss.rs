//! The noise in a note: hammer, plectrum, wind, brush. Owns the tables of filtered noise,
//! made once for a passage, and the bursts cut from them.

use std::sync::Arc;

use fundsp::prelude32::{AudioUnit, BufferArray, BufferRef, Net, U1};
use fundsp::prelude32::{highpass_hz, lowpass_hz, noise};
use fundsp::{F32x, MAX_BUFFER_SIZE, SIMD_N};
use rand::RngExt as _;
use rand_chacha::ChaCha8Rng;

use super::body::corner;
use super::sound::Burst;
use super::spectrum::{ORDINARY, factor};

/// Seconds of noise from which bursts are cut, at least.
const SHORTEST: f64 = 0.12;
/// Seconds of noise that held layers go round in.
const ROUND: f64 = 0.7;
/// A burst this far down is over.
const INAUDIBLE: f32 = 1e-6;

/// Noise of one layer through its band and the body, its root mean square being 1.
#[derive(Clone)]
pub(super) struct NoiseTable {
    burst: Burst,
    blocks: Arc<[[F32x; MAX_BUFFER_SIZE / SIMD_N]]>,
    rate: f64,
}

impl NoiseTable {
    pub(super) fn new(burst: Burst, body: &Net, rate: f64, seed: u64) -> Self {
        let band = noise().seed(seed)
            >> highpass_hz(corner(burst.low, rate), 0.7)
            >> lowpass_hz(corner(burst.high, rate), 0.7);
        let mut unit = Net::wrap(Box::new(band)) >> body.clone();
        unit.set_sample_rate(rate);
        let seconds = burst
            .decay
            .map_or(ROUND, |decay| SHORTEST + 1.2 * decay / 1000.0);
        let count = (seconds * rate) as usize / MAX_BUFFER_SIZE + 1;
        let mut sum = F32x::splat(0.0);
        let mut blocks: Vec<_> = (0..count)
            .map(|_| {
                let mut block: BufferArray<U1> = BufferArray::new();
                let silence = BufferRef::empty();
                unit.process(MAX_BUFFER_SIZE, &silence, &mut block.buffer_mut());
                let block: [F32x; MAX_BUFFER_SIZE / SIMD_N] =
                    std::array::from_fn(|place| block.channel(0)[place]);
                for values in block {
                    sum += values * values;
                }
                block
            })
            .collect();
        let mean = sum.reduce_add() / (count * MAX_BUFFER_SIZE) as f32;
        let scale = F32x::splat(1.0 / mean.sqrt().max(1e-9));
        for values in blocks.iter_mut().flatten() {
            *values *= scale;
        }
        Self {
            burst,
            blocks: blocks.into(),
            rate,
        }
    }
}

/// A burst of noise in a note.
pub(super) struct Hiss {
    table: NoiseTable,
    place: usize,
    level: f32,
    /// The fall within eight frames, and the fall from one eight to the next.
    lanes: F32x,
    shrink: f32,
}

impl Hiss {
    /// A burst as strong as the note asks, from anywhere in the table.
    pub(super) fn new(
        table: &NoiseTable,
        loud: f64,
        strength: f64,
        chance: &mut ChaCha8Rng,
    ) -> Self {
        let burst = &table.burst;
        let touch = burst.touch * (strength - ORDINARY) / (1.0 - ORDINARY);
        let frame = burst
            .decay
            .map_or(0.0, |decay| -6.907_755 / (decay / 1000.0 * table.rate));
        Self {
            place: chance.random_range(0..table.blocks.len()),
            table: table.clone(),
            level: (loud * factor(burst.level + touch)) as f32,
            lanes: F32x::new(std::array::from_fn(|lane| {
                (frame * lane as f64).exp() as f32
            })),
            shrink: (frame * SIMD_N as f64).exp() as f32,
        }
    }

    /// Adds the next block; false once the burst has died away.
    pub(super) fn add(&mut self, mix: &mut [F32x]) -> bool {
        let block = &self.table.blocks[self.place];
        for (sum, values) in mix.iter_mut().zip(block) {
            *sum += *values * self.lanes * F32x::splat(self.level);
            self.level *= self.shrink;
        }
        self.place = (self.place + 1) % self.table.blocks.len();
        self.level > INAUDIBLE
    }
}

//! Integrated loudness by ITU-R BS.1770 and EBU R 128 of samples in memory.

use super::weighting::{Biquad, Weighting};

/// Blocks of the standard are 400 ms, starting every 100 ms.
const STEPS_A_BLOCK: usize = 4;
/// Blocks below this never count, in LUFS.
const ABSOLUTE_GATE: f64 = -70.0;
/// Blocks this far below the mean of the rest do not count, in LU.
const RELATIVE_GATE: f64 = -10.0;

/// The integrated loudness of interleaved stereo samples in LUFS; none if nothing reaches
/// −70 LUFS. Less than 400 ms is taken as one block followed by silence.
#[must_use]
pub fn loudness(samples: &[f32], rate: u32) -> Option<f64> {
    let steps = step_powers(samples, rate);
    let blocks: Vec<f64> = steps
        .windows(STEPS_A_BLOCK)
        .map(|block| block.iter().sum::<f64>() / STEPS_A_BLOCK as f64)
        .collect();
    let first = gated_mean(&blocks, ABSOLUTE_GATE)?;
    gated_mean(&blocks, level(first) + RELATIVE_GATE).map(level)
}

fn level(power: f64) -> f64 {
    -0.691 + 10.0 * power.log10()
}

fn gated_mean(blocks: &[f64], gate: f64) -> Option<f64> {
    let loud = || blocks.iter().filter(|block| level(**block) > gate);
    let count = loud().count();
    (count > 0).then(|| loud().sum::<f64>() / count as f64)
}

/// The weighted power of both sides together in each 100 ms.
fn step_powers(samples: &[f32], rate: u32) -> Vec<f64> {
    let frames = rate as usize / 10;
    let weighting = Weighting::new(f64::from(rate));
    let mut shelf = Memory::default();
    let mut roll_off = Memory::default();
    let mut powers: Vec<f64> = samples
        .chunks(2 * frames)
        .map(|step| {
            let mut power = [0.0; 2];
            for frame in step.chunks_exact(2) {
                let sides = [f64::from(frame[0]), f64::from(frame[1])];
                let sides = roll_off.next(&weighting.roll_off, shelf.next(&weighting.shelf, sides));
                power[0] += sides[0] * sides[0];
                power[1] += sides[1] * sides[1];
            }
            (power[0] + power[1]) / frames as f64
        })
        .collect();
    if !samples.len().is_multiple_of(2 * frames) && powers.len() > STEPS_A_BLOCK {
        // The standard leaves out a block that is not complete.
        powers.pop();
    }
    powers.resize(powers.len().max(STEPS_A_BLOCK), 0.0);
    powers
}

/// The last values of a second-order filter, both sides side by side. In this form a value
/// waits only for one product of the value before it.
#[derive(Default)]
struct Memory {
    input: [[f64; 2]; 2],
    output: [[f64; 2]; 2],
}

impl Memory {
    #[inline]
    fn next(&mut self, filter: &Biquad, input: [f64; 2]) -> [f64; 2] {
        let output = std::array::from_fn(|side| {
            let past = filter.b[0] * input[side]
                + filter.b[1] * self.input[0][side]
                + filter.b[2] * self.input[1][side]
                - filter.a[1] * self.output[1][side];
            past - filter.a[0] * self.output[0][side]
        });
        self.input = [input, self.input[0]];
        self.output = [output, self.output[0]];
        output
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sine(hertz: f64, amplitude: f64, seconds: f64) -> Vec<f32> {
        (0..(seconds * 48_000.0) as usize)
            .flat_map(|frame| {
                let turns = hertz / 48_000.0 * frame as f64;
                [(amplitude * (std::f64::consts::TAU * turns).sin()) as f32; 2]
            })
            .collect()
    }

    #[test]
    fn the_minimum_test_signals_of_the_standard_read_right() {
        // EBU Tech 3341, cases 1 and 2: 1 kHz in both sides at −23 and −33 dBFS.
        for decibels in [-23.0, -33.0] {
            let samples = sine(1000.0, 10f64.powf(decibels / 20.0), 20.0);
            let found = loudness(&samples, 48_000).expect("loud enough");
            assert!((found - decibels).abs() < 0.1, "{found}");
        }
    }

    #[test]
    fn silence_has_no_loudness() {
        assert_eq!(loudness(&[0.0; 96_000], 48_000), None);
        assert_eq!(loudness(&[], 48_000), None);
    }
}

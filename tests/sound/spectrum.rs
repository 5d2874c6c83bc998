//! Measuring frequencies.

use std::f64::consts::{PI, TAU};

use realfft::RealFftPlanner;

/// Amplitudes of the positive frequencies under a Hann window, a sine of amplitude 1
/// reading 1, and the width of a bin in hertz.
pub(crate) fn amplitudes(samples: &[f64], rate: f64) -> (Vec<f64>, f64) {
    let length = samples.len();
    let mut input: Vec<f64> = samples
        .iter()
        .enumerate()
        .map(|(place, value)| value * hann(place, length))
        .collect();
    let plan = RealFftPlanner::<f64>::new().plan_fft_forward(length);
    let mut output = plan.make_output_vec();
    plan.process(&mut input, &mut output).expect("lengths fit");
    let scale = 4.0 / length as f64;
    let amplitudes = output.iter().map(|value| value.norm() * scale).collect();
    (amplitudes, rate / length as f64)
}

pub(crate) fn hann(place: usize, length: usize) -> f64 {
    0.5 - 0.5 * (TAU * place as f64 / length as f64).cos()
}

/// The frequency near `expected` hertz, by the turn of its phase between two windows.
pub(crate) fn frequency(samples: &[f64], rate: f64, expected: f64) -> f64 {
    // A short way between them: a turn must stay below half a circle.
    let length = samples.len() * 7 / 8;
    let hop = samples.len() - length;
    let first = phase(&samples[..length], rate, expected);
    let second = phase(&samples[hop..], rate, expected);
    let turn = (second - first + PI).rem_euclid(TAU) - PI;
    // The second window's phases are counted from its own start.
    let seconds = hop as f64 / rate;
    let carried = (expected * seconds).fract() * TAU;
    let turn = (turn - carried + PI).rem_euclid(TAU) - PI;
    expected + turn / TAU / seconds
}

fn phase(samples: &[f64], rate: f64, hertz: f64) -> f64 {
    let (mut x, mut y) = (0.0, 0.0);
    for (place, value) in samples.iter().enumerate() {
        let angle = TAU * (hertz * place as f64 / rate).fract();
        let value = value * hann(place, samples.len());
        x += value * angle.cos();
        y -= value * angle.sin();
    }
    y.atan2(x)
}

/// How far `found` lies above `expected`, in cents.
pub(crate) fn cents(found: f64, expected: f64) -> f64 {
    1200.0 * (found / expected).log2()
}

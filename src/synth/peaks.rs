//! True peaks: finding them between the samples, and keeping them under a ceiling.

use std::f64::consts::PI;
use std::sync::LazyLock;

/// Points tried for each sample.
const PHASES: usize = 4;
/// Samples that each point between is made of.
const TAPS: usize = 16;
/// Frames looked at together.
const CHUNK: usize = 64;
/// Seconds over which the limiter moves its gain, before and after a peak.
const LOOK: f64 = 0.003;

/// A windowed sine quotient for the three points between two samples.
static BETWEEN: LazyLock<[[f32; TAPS]; PHASES - 1]> = LazyLock::new(|| {
    std::array::from_fn(|phase| {
        let shift = (phase + 1) as f64 / PHASES as f64;
        std::array::from_fn(|tap| {
            let distance = tap as f64 - (TAPS / 2 - 1) as f64 - shift;
            let window = 0.5 + 0.5 * (PI * distance / (TAPS / 2 + 1) as f64).cos();
            ((PI * distance).sin() / (PI * distance) * window) as f32
        })
    })
});

/// No value between samples can exceed the largest sample by more than this factor.
static OVERSHOOT: LazyLock<f32> = LazyLock::new(|| {
    BETWEEN
        .iter()
        .map(|phase| phase.iter().map(|tap| tap.abs()).sum::<f32>())
        .fold(1.0, f32::max)
});

/// The true peak of interleaved stereo samples as an amplitude (four times oversampled, as
/// ITU-R BS.1770 asks).
#[must_use]
pub fn true_peak(samples: &[f32]) -> f32 {
    let mut peak = samples
        .iter()
        .fold(0.0f32, |peak, value| peak.max(value.abs()));
    let frames = samples.len() / 2;
    for start in (0..frames).step_by(CHUNK) {
        let end = (start + CHUNK).min(frames);
        if around(samples, start, end) * *OVERSHOOT > peak {
            peak = (start..end).fold(peak, |peak, frame| peak.max(between(samples, frame)));
        }
    }
    peak
}

/// The largest sample near the frames `start..end`.
fn around(samples: &[f32], start: usize, end: usize) -> f32 {
    let from = start.saturating_sub(TAPS / 2);
    let to = (end + TAPS / 2).min(samples.len() / 2);
    samples[2 * from..2 * to]
        .iter()
        .fold(0.0f32, |peak, value| peak.max(value.abs()))
}

/// The largest value at and just after a frame, on either side.
fn between(samples: &[f32], frame: usize) -> f32 {
    let mut peak = samples[2 * frame].abs().max(samples[2 * frame + 1].abs());
    for side in 0..2 {
        let near: [f32; TAPS] = std::array::from_fn(|tap| {
            (frame + tap)
                .checked_sub(TAPS / 2 - 1)
                .and_then(|place| samples.get(2 * place + side))
                .copied()
                .unwrap_or(0.0)
        });
        for phase in BETWEEN.iter() {
            let value: f32 = phase.iter().zip(&near).map(|(tap, near)| tap * near).sum();
            peak = peak.max(value.abs());
        }
    }
    peak
}

/// Turns down for a few milliseconds around every true peak above `ceiling`; everything
/// else stays as it is. Tells how many frames it touched.
pub(super) fn limit(samples: &mut [f32], rate: u32, ceiling: f32) -> usize {
    let frames = samples.len() / 2;
    let mut wanted = vec![1.0f32; frames];
    let mut over = false;
    for start in (0..frames).step_by(CHUNK) {
        let end = (start + CHUNK).min(frames);
        if around(samples, start, end) * *OVERSHOOT <= ceiling {
            continue;
        }
        for (place, gain) in wanted[start..end].iter_mut().enumerate() {
            let peak = between(samples, start + place);
            if peak > ceiling {
                *gain = ceiling / peak;
                over = true;
            }
        }
    }
    if !over {
        return 0;
    }
    let reach = (LOOK * f64::from(rate)) as usize;
    let gains = smoothed(&lowest(&wanted, reach), reach);
    for (frame, gain) in samples.chunks_exact_mut(2).zip(&gains) {
        frame[0] *= gain;
        frame[1] *= gain;
    }
    gains.iter().filter(|gain| **gain < 1.0).count()
}

/// The lowest of the values within `reach` on both sides, one more to be safe between.
fn lowest(values: &[f32], reach: usize) -> Vec<f32> {
    let mut result = vec![1.0f32; values.len()];
    for (place, value) in values.iter().enumerate().filter(|(_, value)| **value < 1.0) {
        let end = (place + reach + 2).min(values.len());
        for gain in &mut result[place.saturating_sub(reach)..end] {
            *gain = gain.min(*value);
        }
    }
    result
}

/// The mean within `reach` on both sides: a ramp in place of each step.
fn smoothed(values: &[f32], reach: usize) -> Vec<f32> {
    let at = |place: isize| {
        let last = values.len() as isize - 1;
        f64::from(values[place.clamp(0, last) as usize])
    };
    let reach = reach as isize;
    let width = (2 * reach + 1) as f64;
    let mut sum: f64 = (-reach..=reach).map(at).sum();
    (0..values.len() as isize)
        .map(|place| {
            let mean = sum / width;
            sum += at(place + reach + 1) - at(place - reach);
            mean.min(1.0) as f32
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A sine at a quarter of the rate, sampled 45° off its crests: the samples reach
    /// 0.707 of the true peak (the textbook case of ITU-R BS.1770, annex 2).
    fn off_crest(amplitude: f32) -> Vec<f32> {
        (0..4096)
            .flat_map(|frame| {
                let phase =
                    std::f32::consts::FRAC_PI_2 * frame as f32 + std::f32::consts::FRAC_PI_4;
                [amplitude * phase.sin(); 2]
            })
            .collect()
    }

    #[test]
    fn peaks_between_samples_are_found() {
        let mut samples = off_crest(1.0);
        // A sine that begins at once overshoots, so let it rise.
        for (place, value) in samples.iter_mut().enumerate() {
            *value *= (place as f32 / 1000.0).min(1.0);
        }
        let decibels = 20.0 * true_peak(&samples).log10();
        assert!(decibels.abs() < 0.3, "{decibels}");
    }

    #[test]
    fn the_limiter_keeps_the_ceiling_and_leaves_quiet_parts_alone() {
        let mut samples = vec![0.1; 20_000];
        samples.extend(off_crest(1.5));
        samples.extend(vec![0.1; 20_000]);
        assert!(limit(&mut samples, 48_000, 0.89) > 0);
        assert!(true_peak(&samples) <= 0.895, "{}", true_peak(&samples));
        assert!(samples[..19_000].iter().all(|value| *value == 0.1));
        assert!(
            samples[44_000..]
                .iter()
                .skip(1000)
                .all(|value| (value - 0.1).abs() < 1e-4)
        );
    }

    #[test]
    fn nothing_is_limited_without_need() {
        let mut samples = off_crest(0.5);
        let before = samples.clone();
        assert_eq!(limit(&mut samples, 48_000, 0.89), 0);
        assert_eq!(samples, before);
    }
}

//! Notes begin and end without a click, and silence follows.

use plagal::synth::{Settings, Sound, built_in};

use super::notes::{SECOND, mono, range, single};

const RATE: usize = 48_000;

/// The largest change from one sample to the next between two times in seconds.
fn largest_step(samples: &[f64], from: f64, to: f64) -> f64 {
    let at = |seconds: f64| ((seconds * RATE as f64) as usize).min(samples.len());
    samples[at(from)..at(to)]
        .windows(2)
        .map(|pair| (pair[1] - pair[0]).abs())
        .fold(0.0, f64::max)
}

fn peak(samples: &[f64]) -> f64 {
    samples
        .iter()
        .fold(0.0, |peak: f64, value| peak.max(value.abs()))
}

/// Low, middle and high, short and long.
fn each_note(check: impl Fn(&Sound, i32, f64, &[f64])) {
    for sound in built_in() {
        let range = range(sound);
        for midi in [*range.start(), 60, *range.end()] {
            for length in [SECOND / 8, SECOND] {
                let passage = single(midi, length, 0.8);
                let samples = mono(&passage, sound, &Settings::default());
                check(sound, midi, passage.seconds(length), &samples);
            }
        }
    }
}

#[test]
fn no_end_steps_more_than_the_note_itself() {
    each_note(|sound, midi, seconds, samples| {
        let note = largest_step(samples, 0.0, seconds - 0.02);
        let end = largest_step(samples, seconds - 0.02, f64::MAX);
        assert!(
            end <= note * 1.2,
            "{} at {midi}: {end} after {note}",
            sound.id
        );
    });
}

#[test]
fn notes_rise_from_nothing() {
    each_note(|sound, midi, _, samples| {
        let first = samples[0].abs();
        assert!(
            first < 1e-3 * peak(samples),
            "{} at {midi}: {first}",
            sound.id
        );
    });
}

#[test]
fn silence_follows_the_release() {
    each_note(|sound, midi, seconds, samples| {
        let loudest = peak(samples);
        // The release and the first reflections are over.
        let late = ((seconds + 0.6) * RATE as f64) as usize;
        let late = 20.0 * (peak(&samples[late..]) / loudest).log10();
        assert!(late < -40.0, "{} at {midi}: {late} dB", sound.id);
        let last = peak(&samples[samples.len() - 8..]);
        assert!(last < 1e-6, "{} at {midi}: ends at {last}", sound.id);
    });
}

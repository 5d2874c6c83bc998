//! Every sound is in tune: A4 = 440 Hz by ISO 16, twelve equal steps to the octave.

use plagal::synth::{Settings, Sound, built_in};

use super::notes::{SECOND, mono, range, single};
use super::spectrum::{cents, frequency};

/// The worst fundamental of a sound over every playable note, in cents.
pub(crate) fn worst(sound: &Sound, rate: u32, a4: f64) -> (f64, i32) {
    let settings = Settings {
        rate,
        a4,
        room: false,
        ..Settings::default()
    };
    range(sound)
        .map(|midi| {
            // The textbook formula, written out apart from the program's own.
            let expected = a4 * ((f64::from(midi) - 69.0) / 12.0).exp2();
            let samples = mono(&single(midi, SECOND, 0.6), sound, &settings);
            let rate = f64::from(rate);
            let steady = &samples[(0.06 * rate) as usize..(0.56 * rate) as usize];
            (cents(frequency(steady, rate, expected), expected), midi)
        })
        .max_by(|a, b| a.0.abs().total_cmp(&b.0.abs()))
        .expect("a range is never empty")
}

#[test]
fn every_playable_note_is_within_half_a_cent() {
    for rate in [44_100, 48_000] {
        for sound in built_in() {
            let (cents, midi) = worst(sound, rate, 440.0);
            assert!(
                cents.abs() < 0.5,
                "{} at {rate}: {cents} at {midi}",
                sound.id
            );
        }
    }
}

#[test]
fn the_reference_moves_every_note() {
    for a4 in [430.0, 432.0, 442.0, 450.0] {
        for sound in built_in() {
            let (cents, midi) = worst(sound, 48_000, a4);
            assert!(cents.abs() < 0.5, "{} at {a4}: {cents} at {midi}", sound.id);
        }
    }
}

#[test]
fn the_measure_itself_is_sharp() {
    let rate = 48_000.0;
    for hertz in [41.203, 440.0, 2093.0] {
        let sine: Vec<f64> = (0..24_000)
            .map(|frame| (std::f64::consts::TAU * hertz * f64::from(frame) / rate).sin())
            .collect();
        for off in [-3.0f64, 0.0, 3.0] {
            let expected = hertz * (off / 1200.0).exp2();
            let found = frequency(&sine, rate, expected);
            assert!(cents(found, hertz).abs() < 0.01, "{found} is not {hertz}");
        }
    }
}

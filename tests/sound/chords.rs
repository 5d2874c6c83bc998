//! What was put in can be heard out of it: the notes of a chord stand out of the spectrum.

use plagal::synth::{Settings, Sound, built_in};

use super::notes::{CHORD_SECONDS, CHORDS, mono, phrase};
use super::spectrum::amplitudes;

const RATE: f64 = 48_000.0;

/// The spectrum of each chord, its first moments left out.
fn spectra(sound: &Sound) -> Vec<(Vec<f64>, f64)> {
    let samples = mono(&phrase(), sound, &Settings::default());
    (0..CHORDS.len())
        .map(|chord| {
            let start = ((chord as f64 * CHORD_SECONDS + 0.1) * RATE) as usize;
            amplitudes(&samples[start..start + 57_600], RATE)
        })
        .collect()
}

/// The largest amplitude within 30 cents of a MIDI number.
fn near(spectrum: &(Vec<f64>, f64), midi: i32) -> f64 {
    let (amplitudes, bin) = spectrum;
    let hertz = 440.0 * ((f64::from(midi) - 69.0) / 12.0).exp2();
    let from = (hertz * 0.983 / bin).round() as usize;
    let to = (hertz * 1.017 / bin).round() as usize;
    amplitudes[from..=to].iter().fold(0.0, |a, b| a.max(*b))
}

#[test]
fn every_note_of_every_chord_is_there() {
    for sound in built_in() {
        for (midis, spectrum) in CHORDS.iter().zip(spectra(sound)) {
            let loudest = midis
                .iter()
                .map(|m| near(&spectrum, *m))
                .fold(0.0, f64::max);
            for midi in midis {
                let level = 20.0 * (near(&spectrum, *midi) / loudest).log10();
                assert!(
                    level > -20.0,
                    "{}: {midi} of {midis:?} at {level} dB",
                    sound.id
                );
            }
        }
    }
}

#[test]
fn the_pitch_classes_of_the_chord_stand_above_all_others() {
    for sound in built_in() {
        for (midis, spectrum) in CHORDS.iter().zip(spectra(sound)) {
            let mut chroma = [0.0f64; 12];
            for midi in 36..=84 {
                chroma[(midi % 12) as usize] += near(&spectrum, midi).powi(2);
            }
            // The fifth above the bass is its own third partial, in the chord or not.
            let fifth = (midis[0] as usize + 7) % 12;
            let sounds = |class: usize| midis.iter().any(|midi| *midi as usize % 12 == class);
            let within = (0..12).filter(|class| sounds(*class));
            let foreign = (0..12).filter(|class| !sounds(*class) && *class != fifth);
            let weakest = within.map(|class| chroma[class]).fold(f64::MAX, f64::min);
            let strongest = foreign.map(|class| chroma[class]).fold(0.0, f64::max);
            assert!(
                weakest > 1.5 * strongest,
                "{}: {midis:?} {chroma:?}",
                sound.id
            );
        }
    }
}

#[test]
fn the_bass_is_the_lowest_thing_heard() {
    for sound in built_in() {
        for (midis, spectrum) in CHORDS.iter().zip(spectra(sound)) {
            let loudest = midis
                .iter()
                .map(|m| near(&spectrum, *m))
                .fold(0.0, f64::max);
            let lowest = (28..=84).find(|midi| near(&spectrum, *midi) > 0.1 * loudest);
            assert_eq!(lowest, Some(midis[0]), "{}: {midis:?}", sound.id);
        }
    }
}

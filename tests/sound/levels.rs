//! Loudness and peaks, measured by an independent implementation of EBU R 128.

use ebur128::{EbuR128, Mode};
use plagal::arranging::{Note, Passage, Voice};
use plagal::synth::{CEILING, LOUDNESS, Samples, Settings, built_in, loudness, render, true_peak};

use proptest::prelude::{ProptestConfig, Strategy, prop, proptest};

use super::notes::{SECOND, phrase, pitch, single};

fn meter(samples: &Samples) -> EbuR128 {
    let mut meter = EbuR128::new(2, samples.rate, Mode::I | Mode::TRUE_PEAK).expect("a meter");
    meter.add_frames_f32(&samples.interleaved).expect("frames");
    meter
}

fn meter_peak(meter: &EbuR128) -> f64 {
    let side = |side| meter.true_peak(side).expect("a side");
    20.0 * side(0).max(side(1)).log10()
}

#[test]
fn every_phrase_is_equally_loud_and_its_peaks_are_limited() {
    for rate in [44_100, 48_000] {
        for sound in built_in() {
            let settings = Settings {
                rate,
                ..Settings::default()
            };
            let meter = meter(&render(&phrase(), sound, &settings));
            let found = meter.loudness_global().expect("loudness");
            assert!(
                (found - LOUDNESS).abs() < 0.5,
                "{} at {rate}: {found}",
                sound.id
            );
            let peak = meter_peak(&meter);
            assert!(peak <= CEILING, "{} at {rate}: {peak} dBTP", sound.id);
        }
    }
}

#[test]
fn even_a_short_hard_note_keeps_the_ceiling() {
    for sound in built_in() {
        for midi in [sound.range.0.midi(), sound.range.1.midi()] {
            let samples = render(&single(midi, SECOND / 4, 1.0), sound, &Settings::default());
            let peak = meter_peak(&meter(&samples));
            assert!(peak <= CEILING, "{} at {midi}: {peak} dBTP", sound.id);
        }
    }
}

#[test]
fn our_meters_agree_with_the_reference() {
    for sound in built_in() {
        for level in [-30.0, -20.0] {
            let settings = Settings {
                level,
                ..Settings::default()
            };
            let samples = render(&phrase(), sound, &settings);
            let meter = meter(&samples);
            let reference = meter.loudness_global().expect("loudness");
            let ours = loudness(&samples.interleaved, samples.rate).expect("not silent");
            assert!((ours - reference).abs() < 0.1, "{ours} is not {reference}");
            let peak = 20.0 * f64::from(true_peak(&samples.interleaved)).log10();
            assert!((peak - meter_peak(&meter)).abs() < 0.1, "{peak}");
        }
    }
}

/// Four to thirty notes anywhere within eight seconds, as strong as they like, in the range of
/// every sound. A lone short one would have so few blocks that one at the gate decides.
fn passages() -> impl Strategy<Value = Passage> {
    let note = (
        0..7 * SECOND,
        SECOND / 20..2 * SECOND,
        53..68i32,
        0.1f32..1.0,
    );
    prop::collection::vec(note, 4..30).prop_map(|notes| Passage {
        tempo: 60.0,
        notes: notes
            .into_iter()
            .map(|(start, length, midi, strength)| Note {
                start,
                length,
                pitch: pitch(midi),
                strength,
                voice: Voice::Upper(0),
            })
            .collect(),
        chords: Vec::new(),
        bassist: false,
        length: 8 * SECOND,
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn any_passage_is_as_loud_as_its_peaks_allow(passage in passages()) {
        for sound in built_in() {
            let meter = meter(&render(&passage, sound, &Settings::default()));
            let (found, peak) = (meter.loudness_global().expect("loudness"), meter_peak(&meter));
            assert!(peak <= CEILING, "{}: {peak} dBTP", sound.id);
            // Only the ceiling may keep a phrase softer.
            let limited = peak > CEILING - 0.5;
            let least = if limited { LOUDNESS - 3.0 } else { LOUDNESS - 0.5 };
            assert!((least..LOUDNESS + 0.5).contains(&found), "{}: {found} LUFS", sound.id);
        }
    }
}

//! Pitches against music21 10.5.1 (PyPI, BSD-3-Clause), which wrote `outside/pitches.tsv`
//! by `outside/pitches.py`: MIDI numbers, and frequencies at A4 = 440 Hz (ISO 16).

use std::collections::BTreeMap;

use plagal::theory::Pitch;

use crate::tables::{rows, source};

const TABLE: &str = include_str!("pitches.tsv");

/// Every pitch of the table with its MIDI number and its frequency in hertz.
fn pitches() -> Vec<(Pitch, i32, f64)> {
    rows(TABLE)
        .skip(1)
        .map(|row| {
            let pitch = row[0].parse().unwrap_or_else(|error| panic!("{error}"));
            let number = |text: &str| text.parse::<f64>().expect("a number");
            (pitch, number(row[1]) as i32, number(row[2]))
        })
        .collect()
}

#[test]
fn pitches_sound_as_music21_says() {
    assert_eq!(source(TABLE), "music21 10.5.1 (PyPI, BSD-3-Clause)");
    let pitches = pitches();
    for (pitch, midi, hertz) in &pitches {
        assert_eq!(pitch.midi(), *midi, "{pitch}");
        // The table has four decimals.
        let error = (pitch.frequency(440.0) - hertz).abs();
        assert!(error <= 0.000_051, "{pitch}: {hertz} Hz, off by {error}");
    }
    assert_eq!(pitches.len(), 9 * 35);
}

#[test]
fn enharmonic_pitches_are_told_apart_but_sound_alike() {
    let mut alike: BTreeMap<i32, Vec<Pitch>> = BTreeMap::new();
    for (pitch, midi, _) in pitches() {
        alike.entry(midi).or_default().push(pitch);
    }
    // Within two accidentals every key of the keyboard has three names, but G♯/A♭ two
    // (common practice); the table's ends lack the letters beyond them.
    for (midi, names) in alike.range(12 + 2..12 * 9 + 12 - 2) {
        let expected = if midi % 12 == 8 { 2 } else { 3 };
        assert_eq!(names.len(), expected, "{midi}");
        for pair in names.windows(2) {
            assert_ne!(pair[0].class, pair[1].class, "{midi}");
            assert!((pair[0].frequency(440.0) - pair[1].frequency(440.0)).abs() < 1e-9);
        }
    }
}

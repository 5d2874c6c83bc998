//! Every chord of the catalogue's examples and counterexamples, in every key of its mode,
//! against music21 10.5.1 (PyPI, BSD-3-Clause), which wrote `outside/catalogue.tsv` by
//! `outside/catalogue.py`. The recipe asks in all fifteen keys of a mode and writes down those
//! that are not C transposed; there are none, so the table holds C alone.

use std::collections::BTreeSet;

use plagal::devices::Catalogue;
use plagal::theory::{Chord, Head, IntervalClass, Key, Mode, Numeral, PitchClass};

use crate::tables::{Cell, names, rows, source};

const TABLE: &str = include_str!("catalogue.tsv");

struct Row {
    mode: Mode,
    numeral: Numeral,
    figure: &'static str,
    home: Cell,
}

fn table() -> Vec<Row> {
    rows(TABLE)
        .map(|row| {
            let [mode, numeral, figure, home] = row[..] else {
                panic!("not a chord and its transpositions: {row:?}");
            };
            Row {
                mode: if mode == "major" {
                    Mode::Major
                } else {
                    Mode::Minor
                },
                numeral: numeral.parse().unwrap_or_else(|error| panic!("{error}")),
                figure,
                home: Cell::read(home),
            }
        })
        .collect()
}

/// The chords of the catalogue's lines, each once.
fn chords_of_the_catalogue() -> BTreeSet<(Mode, String)> {
    let catalogue = Catalogue::built_in();
    let devices = catalogue.devices().iter();
    let lines = devices.flat_map(|device| device.examples.iter().chain(&device.counterexamples));
    let chords = lines.flat_map(|example| {
        let numerals = example.line.numerals();
        numerals.map(|numeral| (example.mode, numeral.to_string()))
    });
    chords.collect()
}

#[test]
fn no_chord_of_the_catalogue_is_missing_from_the_table() {
    assert_eq!(source(TABLE), "music21 10.5.1 (PyPI, BSD-3-Clause)");
    let tabled = table().into_iter();
    let tabled: BTreeSet<_> = tabled
        .map(|row| (row.mode, row.numeral.to_string()))
        .collect();
    let missing: Vec<_> = chords_of_the_catalogue()
        .difference(&tabled)
        .cloned()
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn every_chord_of_the_catalogue_sounds_in_every_key_as_in_music21() {
    let mut compared = 0;
    for row in table() {
        for key in Key::all().filter(|key| key.mode() == row.mode) {
            let place = format!("{} in {key} (music21: {})", row.numeral, row.figure);
            let chord = Chord::new(&row.numeral, key).unwrap_or_else(|error| panic!("{error}"));
            let by: IntervalClass = key.tonic().above(PitchClass::C);
            let expected = row.home.notes.iter().map(|note| note.up(by));
            let found = chord.notes().into_iter().chain([chord.bass()]);
            assert_eq!(names(found), names(expected), "notes of {place}");
            assert_eq!(chord.bass(), row.home.bass.up(by), "bass of {place}");
            // Of an augmented sixth's root there are two opinions: music21 takes the raised
            // fourth or the second degree, we the bass, as of the dominant that sounds alike.
            if !matches!(row.numeral.head, Head::AugmentedSixth(_)) {
                let root = row.home.root.map(|root| root.up(by));
                assert_eq!(Some(chord.root()), root, "root of {place}");
            }
            compared += 1;
        }
    }
    assert!(compared > 2_500, "only {compared} chords");
}

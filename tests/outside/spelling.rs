//! Numerals in all thirty keys against music21 10.5.1 (PyPI, BSD-3-Clause), which wrote
//! `outside/spelling.tsv` by `outside/spelling.py`; the table names what had to be
//! translated for it.

use plagal::theory::{Chord, Head, Key, Mode, Numeral};

use crate::tables::{Cell, names, rows, source};

const TABLE: &str = include_str!("spelling.tsv");

/// Every chord of the table: the key, our numeral, music21's figure and its notes.
fn chords() -> Vec<(Key, Numeral, &'static str, Cell)> {
    let mut chords = Vec::new();
    let mut mode = Mode::Major;
    let mut keys: Vec<Key> = Vec::new();
    for row in rows(TABLE) {
        match row[..] {
            ["[major]"] => mode = Mode::Major,
            ["[minor]"] => mode = Mode::Minor,
            ["numeral", _, ..] => keys = row[2..].iter().map(|tonic| key(tonic, mode)).collect(),
            [numeral, figure, ..] => {
                let numeral: Numeral = numeral.parse().unwrap_or_else(|error| panic!("{error}"));
                assert_eq!(row.len(), 2 + keys.len(), "{numeral}");
                for (key, cell) in keys.iter().zip(&row[2..]) {
                    chords.push((*key, numeral.clone(), figure, Cell::read(cell)));
                }
            }
            _ => panic!("a broken row: {row:?}"),
        }
    }
    chords
}

fn key(tonic: &str, mode: Mode) -> Key {
    let key: Key = tonic.parse().unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(key.mode(), mode, "{tonic}");
    key
}

#[test]
fn numerals_are_spelled_as_music21_spells_them() {
    assert_eq!(source(TABLE), "music21 10.5.1 (PyPI, BSD-3-Clause)");
    let chords = chords();
    for (key, numeral, figure, cell) in &chords {
        let chord = Chord::new(numeral, *key).unwrap_or_else(|error| panic!("{error}"));
        let place = format!("{numeral} in {key} (music21: {figure})");
        assert_eq!(names(chord.notes()), cell.names(), "notes of {place}");
        assert_eq!(chord.bass(), cell.bass, "bass of {place}");
        // An augmented sixth has no root that all agree on: music21 takes the raised
        // fourth or the second degree, we the bass, like the dominant that sounds alike.
        if !matches!(numeral.head, Head::AugmentedSixth(_)) {
            assert_eq!(Some(chord.root()), cell.root, "root of {place}");
        }
    }
    let keys: std::collections::HashSet<Key> = chords.iter().map(|chord| chord.0).collect();
    assert_eq!(keys.len(), Key::all().count());
    assert!(chords.len() > 4_500, "only {} chords", chords.len());
}

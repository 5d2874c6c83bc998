//! Chord symbols against music21 10.5.1 (PyPI, BSD-3-Clause), which wrote
//! `outside/symbols.tsv` by `outside/symbols.py`; the table names what had to be
//! translated for it.

use plagal::theory::Symbol;

use crate::tables::{Cell, names, rows, source};

const TABLE: &str = include_str!("symbols.tsv");

/// Every symbol of the table with music21's notes.
fn symbols() -> Vec<(String, Cell)> {
    let mut symbols = Vec::new();
    let mut roots: Vec<&str> = Vec::new();
    for row in rows(TABLE) {
        match row[..] {
            ["[qualities]" | "[slashes]"] | ["symbol", "notes"] => {}
            ["quality", _, ..] => roots = row[2..].to_vec(),
            [symbol, notes] => symbols.push((symbol.to_owned(), Cell::read(notes))),
            [quality, _, ..] => {
                assert_eq!(row.len(), 2 + roots.len(), "{quality}");
                for (root, cell) in roots.iter().zip(&row[2..]) {
                    let symbol = format!("{root}{}", quality.trim_start_matches('.'));
                    symbols.push((symbol, Cell::read(cell)));
                }
            }
            _ => panic!("a broken row: {row:?}"),
        }
    }
    symbols
}

#[test]
fn symbols_are_spelled_as_music21_spells_them() {
    assert_eq!(source(TABLE), "music21 10.5.1 (PyPI, BSD-3-Clause)");
    let symbols = symbols();
    for (text, cell) in &symbols {
        let symbol: Symbol = text.parse().unwrap_or_else(|error| panic!("{error}"));
        let notes = symbol.notes().into_iter().chain([symbol.bass]);
        assert_eq!(names(notes), cell.names(), "notes of {text}");
        assert_eq!(symbol.bass, cell.bass, "bass of {text}");
        assert_eq!(Some(symbol.root), cell.root, "root of {text}");
    }
    assert!(symbols.len() > 1_500, "only {} symbols", symbols.len());
}

//! Worked examples of harmony textbooks, read by the catalogue and by the marking.
//!
//! A row of a table is a kind, a book, a section of it, a line, and what the book names: a
//! device that is found on the chords in brackets (`names`) or nowhere (`refuses`), or a
//! numeral that is right for the bracketed chord (`accepts`). Lines are in major unless
//! `minor:` begins them.

use std::ops::Range;

use super::tables::rows;
use plagal::devices::{Catalogue, DeviceId};
use plagal::harmony::{ChordInContext, Tier};
use plagal::theory::{BareSix, Line, Meter, Mode, Numeral};

#[test]
fn the_21st_century_classroom_agrees() {
    check(include_str!("twenty_first_century.tsv"), 95);
}

#[test]
fn open_music_theory_agrees() {
    check(include_str!("open_music_theory.tsv"), 72);
}

#[test]
fn other_textbooks_agree() {
    check(include_str!("others.tsv"), 31);
}

/// Asserts that nothing in a table of so many cases is contradicted.
fn check(table: &str, count: usize) {
    let faults: Vec<String> = rows(table)
        .filter_map(|row| {
            let [kind, book, section, text, wanted] = row[..] else {
                panic!("a broken row: {row:?}");
            };
            let fault = fault(kind, text, wanted)?;
            Some(format!("{book}, {section}: `{text}`, {wanted}: {fault}"))
        })
        .collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert_eq!(rows(table).count(), count);
}

/// What contradicts a case, if anything does.
fn fault(kind: &str, text: &str, wanted: &str) -> Option<String> {
    let (mode, chords) = match text.strip_prefix("minor:") {
        Some(chords) => (Mode::Minor, chords),
        None => (Mode::Major, text),
    };
    let (line, marked) = read(chords);
    match kind {
        "names" => {
            let found = occurrences(&line, mode, wanted);
            (!found.contains(&marked)).then(|| format!("found at {found:?}, not at {marked:?}"))
        }
        "refuses" => {
            let found = occurrences(&line, mode, wanted);
            (!found.is_empty()).then(|| format!("found at {found:?}"))
        }
        "accepts" => {
            let answer: Numeral = wanted.parse().expect("the book's numeral is read");
            let tier = ChordInContext::of(&line, marked.start, mode).judge(&answer);
            (!matches!(tier, Tier::Right | Tier::OtherName)).then(|| format!("marked {tier:?}"))
        }
        other => panic!("no kind of case: {other}"),
    }
}

fn occurrences(line: &Line, mode: Mode, device: &str) -> Vec<Range<usize>> {
    let catalogue = Catalogue::built_in();
    let id: DeviceId = device.parse().expect("a device id");
    assert!(catalogue.get(&id).is_some(), "{device} is in the catalogue");
    let chords: Vec<&Numeral> = line.numerals().collect();
    let found = catalogue.find(&chords, mode).into_iter();
    found
        .filter(|found| found.device == id)
        .map(|found| found.own)
        .collect()
}

/// A line and the chords in brackets; all of them if there are none.
fn read(text: &str) -> (Line, Range<usize>) {
    let words: Vec<&str> = text.split_whitespace().collect();
    let from = words.iter().position(|word| word.starts_with('['));
    let to = words.iter().position(|word| word.ends_with(']'));
    let bare = text.replace(['[', ']'], "");
    let line = Line::read(&bare, Meter::FourFour, BareSix::AddedSixth)
        .unwrap_or_else(|error| panic!("`{text}`: {error}"));
    assert_eq!(line.slots().len(), words.len(), "`{text}` repeats a chord");
    let marked = from.unwrap_or(0)..to.map_or(words.len(), |last| last + 1);
    (line, marked)
}

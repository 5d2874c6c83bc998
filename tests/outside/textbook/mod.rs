//! Worked examples of harmony textbooks, read by the catalogue and by the marking.
//!
//! The chords that the book speaks of stand in brackets: `I [V7/V] V7 I`.

mod open_music_theory;
mod others;
mod twenty_first_century;

use std::ops::Range;

use plagal::devices::{Catalogue, DeviceId};
use plagal::harmony::{Sounding, Tier};
use plagal::theory::{BareSix, Line, Meter, Mode, Numeral};

/// A section of a book, a line of it, and a device or a numeral that the book names.
pub(crate) type Case = (&'static str, &'static str, &'static str);

/// Asserts that the catalogue finds the device on the bracketed chords.
pub(crate) fn names(book: &str, cases: &[Case]) {
    judge(book, cases, |line, marked, mode, device| {
        let found = occurrences(line, mode, device);
        if found.contains(marked) {
            None
        } else {
            Some(format!("finds it at {found:?}, not at {marked:?}"))
        }
    });
}

/// Asserts that the catalogue does not find the device anywhere in the line.
pub(crate) fn refuses(book: &str, cases: &[Case]) {
    judge(book, cases, |line, _, mode, device| {
        let found = occurrences(line, mode, device);
        (!found.is_empty()).then(|| format!("finds it at {found:?}"))
    });
}

/// Asserts that the book's numeral is right for the bracketed chord, or another right name.
pub(crate) fn accepts(book: &str, cases: &[Case]) {
    judge(book, cases, |line, marked, mode, numeral| {
        let answer: Numeral = numeral.parse().expect("the book's numeral is read");
        let tier = Sounding::of(line, marked.start, mode).judge(&answer);
        (!matches!(tier, Tier::Right | Tier::OtherName)).then(|| format!("is marked {tier:?}"))
    });
}

/// Collects what `fault` finds in all cases. Lines are in major unless `minor:` begins them.
fn judge(
    book: &str,
    cases: &[Case],
    fault: impl Fn(&Line, &Range<usize>, Mode, &str) -> Option<String>,
) {
    let faults: Vec<String> = cases
        .iter()
        .filter_map(|(section, text, wanted)| {
            let (mode, chords) = match text.strip_prefix("minor:") {
                Some(chords) => (Mode::Minor, chords),
                None => (Mode::Major, *text),
            };
            let (line, marked) = read(chords);
            let fault = fault(&line, &marked, mode, wanted)?;
            Some(format!("{book}, {section}: `{text}`, {wanted}: {fault}"))
        })
        .collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
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

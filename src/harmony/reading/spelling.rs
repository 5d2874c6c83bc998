//! From a chord symbol to the numeral on its own root, spelled as its motion asks.

use crate::devices::Kind;
use crate::theory::{Degree, IntervalClass, Key, Numeral, PitchClass, Symbol};

/// Degrees as they are spelled without further reason, by chromatic step above the tonic.
const USUAL: [(u8, i16); 12] = [
    (1, 0),
    (2, -1),
    (2, 0),
    (3, -1),
    (3, 0),
    (4, 0),
    (4, 1),
    (5, 0),
    (6, -1),
    (6, 0),
    (7, -1),
    (7, 0),
];

/// The same, spelled with sharps.
const RAISED: [(u8, i16); 12] = [
    (1, 0),
    (1, 1),
    (2, 0),
    (2, 1),
    (3, 0),
    (4, 0),
    (4, 1),
    (5, 0),
    (5, 1),
    (6, 0),
    (6, 1),
    (7, 0),
];

/// The symbol as a numeral on its own root, before it is known what the chord does.
pub(super) fn numeral(symbol: &Symbol, next: &Symbol, key: Key) -> Numeral {
    let root = root(symbol, next, key);
    let mut numeral = Numeral::roman(root, symbol.quality);
    if symbol.bass != symbol.root {
        let own = symbol.bass.above(symbol.root);
        let is_member = symbol
            .quality
            .members()
            .iter()
            .any(|(_, interval)| interval.chromatic() == own.chromatic());
        numeral.bass = Some(if is_member {
            member(symbol, root, own)
        } else {
            usual(step(symbol.bass, key))
        });
    }
    numeral
}

/// The degree of a chord member, spelled from the root.
fn member(symbol: &Symbol, root: Degree, sounding: IntervalClass) -> Degree {
    let members = symbol.quality.members();
    let interval = members
        .iter()
        .map(|(_, interval)| *interval)
        .find(|interval| interval.chromatic() == sounding.chromatic());
    root.up(interval.unwrap_or(sounding))
}

/// Chromatic steps of a note above the tonic, 0 to 11.
fn step(note: PitchClass, key: Key) -> usize {
    let steps = (note.chromatic() - key.tonic().chromatic()).rem_euclid(12);
    usize::try_from(steps).expect("the remainder is not negative")
}

fn usual(step: usize) -> Degree {
    let (number, alteration) = USUAL[step];
    Degree::new(number, alteration)
}

fn raised(step: usize) -> Degree {
    let (number, alteration) = RAISED[step];
    Degree::new(number, alteration)
}

fn root(symbol: &Symbol, next: &Symbol, key: Key) -> Degree {
    let here = step(symbol.root, key);
    let there = step(next.root, key);
    let motion = (there + 12 - here) % 12;
    match Kind::of(symbol.quality) {
        // A leading tone is raised; so is the second degree where it is left for the tonic.
        Kind::Diminished if motion == 1 => raised(here),
        Kind::Diminished if here == 3 && there == 0 => raised(here),
        Kind::Diminished if here == 1 && motion != 11 => raised(here),
        Kind::Diminished if here == 6 && motion == 11 => Degree::new(5, -1),
        Kind::HalfDiminished if here != 10 => raised(here),
        // A dominant on the tritone falls by a fifth as ♯IV7, by a semitone as ♭V7.
        Kind::Dominant | Kind::Major if here == 6 && motion != 5 => Degree::new(5, -1),
        Kind::Diminished
        | Kind::HalfDiminished
        | Kind::Dominant
        | Kind::Major
        | Kind::Minor
        | Kind::Augmented
        | Kind::Suspended => usual(here),
    }
}

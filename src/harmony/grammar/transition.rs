//! How readily one chord goes to another: the weights that fill a line around devices.
//!
//! The weights follow common practice: root motion by falling fifth first, then by
//! third and by step; half of all root motion in the jazz repertoire is a falling fifth
//! (counted in the Jazz Harmony Treebank, Harasim et al. 2020).

use crate::devices::{Kind, Shape};
use crate::harmony::role::fourth_above;
use crate::theory::{Degree, Mode, Numeral};

/// The chords that a line is filled with, and the weights from each to each.
struct Table {
    chords: &'static [&'static str],
    weights: &'static [&'static [f64]],
}

/// Rows: from; columns: to.
const MAJOR: Table = Table {
    chords: &["I", "ii7", "iii7", "IV", "V7", "vi7"],
    weights: &[
        &[0.0, 3.0, 1.2, 3.0, 1.5, 3.0],
        &[0.0, 0.0, 0.4, 0.0, 9.0, 0.0],
        &[0.0, 1.0, 0.0, 2.0, 0.0, 5.0],
        &[2.5, 2.0, 0.6, 0.0, 3.0, 0.2],
        &[8.0, 0.0, 0.3, 0.0, 0.0, 1.0],
        &[0.0, 5.0, 0.6, 2.5, 0.8, 0.0],
    ],
};

const MINOR: Table = Table {
    chords: &["i", "iiø7", "bIII", "iv7", "V7", "bVI", "bVII7"],
    weights: &[
        &[0.0, 3.0, 0.8, 3.0, 1.5, 2.5, 1.2],
        &[0.0, 0.0, 0.0, 0.0, 9.0, 0.0, 0.0],
        &[0.0, 1.2, 0.0, 2.0, 0.6, 3.0, 0.0],
        &[1.5, 1.5, 0.0, 0.0, 3.0, 0.0, 1.8],
        &[8.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0],
        &[0.0, 4.0, 0.6, 1.5, 1.5, 0.0, 0.8],
        &[0.4, 0.0, 5.0, 0.0, 0.0, 1.0, 0.0],
    ],
};

const fn table(mode: Mode) -> &'static Table {
    match mode {
        Mode::Major => &MAJOR,
        Mode::Minor => &MINOR,
    }
}

/// The chords that fill a line in a mode, the tonic first.
pub(super) fn fillers(mode: Mode) -> Vec<Numeral> {
    table(mode)
        .chords
        .iter()
        .map(|text| text.parse().expect("the table holds numerals"))
        .collect()
}

/// The weight of a step between two chords; 0 where it is not made.
pub(super) fn weight(from: &Numeral, to: &Numeral, fillers: &[Numeral], mode: Mode) -> f64 {
    let (from, to) = (Shape::acting(from), Shape::acting(to));
    if from == to {
        return 0.0;
    }
    let place = |shape: Shape| {
        fillers
            .iter()
            .position(|chord| Shape::acting(chord) == shape)
    };
    match (place(from), place(to)) {
        (Some(from), Some(to)) => table(mode).weights[from][to],
        (Some(_), None) => approach(from, to),
        (None, Some(_)) => resolution(from, to),
        (None, None) => 0.5 * resolution(from, to),
    }
}

/// From a chord of the key to one outside the table.
fn approach(from: Shape, to: Shape) -> f64 {
    let to_pull = matches!(to.kind, Kind::Dominant | Kind::Diminished);
    let from_pull = from.kind == Kind::Dominant;
    let falling_fifth = to.root == fourth_above(from.root);
    match () {
        () if from_pull && to.root != Degree::TONIC => 0.0,
        () if from.root == Degree::TONIC => 3.0,
        () if to_pull && falling_fifth => 3.0,
        () if from.root == to.root => 2.0,
        () if from.kind == Kind::Major => 1.5,
        () => 0.4,
    }
}

/// From a chord outside the table.
fn resolution(from: Shape, to: Shape) -> f64 {
    let step = (to.root.interval().chromatic() - from.root.interval().chromatic()).rem_euclid(12);
    let falling_fifth = to.root == fourth_above(from.root);
    match from.kind {
        Kind::Dominant if falling_fifth => 6.0,
        Kind::Dominant if step == 11 => 2.0,
        Kind::Dominant | Kind::Augmented => 0.0,
        Kind::Diminished if step == 1 => 4.0,
        Kind::Diminished if to.root == Degree::TONIC => 1.0,
        Kind::Diminished => 0.0,
        Kind::HalfDiminished if falling_fifth => 4.0,
        Kind::HalfDiminished => 0.0,
        Kind::Minor | Kind::Major | Kind::Suspended if to.root == Degree::TONIC => 2.0,
        Kind::Minor | Kind::Major | Kind::Suspended if falling_fifth => 2.0,
        Kind::Minor | Kind::Major | Kind::Suspended if to.root == Degree::new(5, 0) => 1.0,
        Kind::Minor | Kind::Major | Kind::Suspended => 0.4,
    }
}

//! A cadence that is restated at another pitch.

use std::ops::Range;

use super::falls::{falls_a_fifth, is_dominant};
use crate::devices::shape::{Kind, Shape};
use crate::theory::{Degree, Numeral};

/// Lengths of the pattern, the longest first.
const LENGTHS: [usize; 2] = [4, 3];

/// Every pattern of three or four chords that holds a cadence and is followed by itself,
/// transposed.
pub(super) fn find(line: &[&Numeral]) -> Vec<Range<usize>> {
    let mut found: Vec<Range<usize>> = Vec::new();
    let mut at = 0;
    while at < line.len() {
        let here = LENGTHS
            .into_iter()
            .filter_map(|length| line.get(at..at + 2 * length))
            .find(|chords| is_restated(chords));
        if let Some(chords) = here {
            found.push(at..at + chords.len());
        }
        at += here.map_or(1, |chords| chords.len() / 2);
    }
    found
}

fn is_restated(chords: &[&Numeral]) -> bool {
    let (one, other) = chords.split_at(chords.len() / 2);
    let semitones = |from: &Numeral, to: &Numeral| {
        let between = to.root().interval().chromatic() - from.root().interval().chromatic();
        between.rem_euclid(12)
    };
    let step = semitones(one[0], other[0]);
    let alike = one
        .iter()
        .zip(other)
        .all(|(from, to)| semitones(from, to) == step && are_alike(from, to));
    let mut pairs = one.windows(2).zip(other.windows(2));
    // What is restated at home is a sequence within the key.
    let moves_away = |(pair, again): (&[&Numeral], &[&Numeral])| {
        cadences(pair[0], pair[1]) && again[1].root() != Degree::TONIC
    };
    step != 0 && alike && pairs.any(moves_away)
}

/// Whether both are of one kind, or act as one.
fn are_alike(one: &Numeral, other: &Numeral) -> bool {
    Shape::of(one).kind == Shape::of(other).kind
        || Shape::acting(one).kind == Shape::acting(other).kind
}

/// A dominant seventh that falls a fifth to a chord at rest.
fn cadences(dominant: &Numeral, target: &Numeral) -> bool {
    is_dominant(dominant)
        && falls_a_fifth(dominant, target)
        && matches!(Shape::of(target).kind, Kind::Major | Kind::Minor)
}

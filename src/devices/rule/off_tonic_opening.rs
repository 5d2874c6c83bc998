//! An opening away from the tonic.

use std::ops::Range;

use crate::devices::shape::{Kind, Shape};
use crate::theory::{Degree, Numeral};

/// The first chord, if it stands on another root than the tonic and the tonic comes later.
pub(super) fn find(line: &[&Numeral]) -> Vec<Range<usize>> {
    let off_tonic = line
        .split_first()
        .is_some_and(|(first, rest)| first.root() != Degree::TONIC && rest.iter().any(is_tonic));
    off_tonic.then_some(0..1).into_iter().collect()
}

fn is_tonic(chord: &&Numeral) -> bool {
    let shape = Shape::acting(chord);
    shape.root == Degree::TONIC && matches!(shape.kind, Kind::Major | Kind::Minor)
}

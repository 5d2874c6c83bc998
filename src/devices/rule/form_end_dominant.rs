//! A form that ends on the dominant of its beginning.

use std::ops::Range;

use crate::devices::shape::{Kind, Shape};
use crate::theory::{IntervalClass, Numeral};

/// The last chord, if it is the dominant of the first.
pub(super) fn find(line: &[&Numeral]) -> Vec<Range<usize>> {
    let [first, .., last] = line else {
        return Vec::new();
    };
    let turns_back = Shape::acting(last).kind == Kind::Dominant
        && last.root() == first.root().up(IntervalClass::PERFECT_FIFTH);
    let end = line.len();
    turns_back.then_some(end - 1..end).into_iter().collect()
}

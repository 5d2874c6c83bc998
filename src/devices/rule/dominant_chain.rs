//! Dominants that resolve to dominants.

use std::ops::Range;

use super::run::runs;
use crate::devices::shape::{Kind, Shape};
use crate::theory::{IntervalClass, Numeral};

/// Every run of three or more dominant sevenths, each a fifth below the one before.
pub(super) fn find(line: &[&Numeral]) -> Vec<Range<usize>> {
    let mut found = runs(line, |one, next| {
        let (one, next) = (Shape::acting(one), Shape::acting(next));
        let falls = Shape {
            root: one.root.up(IntervalClass::PERFECT_FOURTH),
            ..one
        };
        one.kind == Kind::Dominant && falls.sounds_as(next)
    });
    found.retain(|run| run.len() >= 3);
    found
}

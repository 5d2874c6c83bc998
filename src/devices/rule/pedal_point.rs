//! One bass note under changing harmonies.

use std::collections::HashSet;
use std::ops::Range;

use super::run::runs;
use crate::devices::pattern::bass_of;
use crate::theory::{Degree, IntervalClass, Numeral};

/// The fewest roots that must pass over the held note.
const FEWEST: usize = 3;

/// Every run of chords over the tonic or the dominant in the bass with three roots or more.
pub(super) fn find(line: &[&Numeral]) -> Vec<Range<usize>> {
    let pedals = [Degree::TONIC, Degree::at(IntervalClass::PERFECT_FIFTH)];
    let mut found = runs(line, |one, next| {
        pedals.contains(&bass_of(one)) && bass_of(one) == bass_of(next)
    });
    found.retain(|run| {
        let roots: HashSet<Degree> = line[run.clone()].iter().map(|c| c.root()).collect();
        roots.len() >= FEWEST
    });
    found
}

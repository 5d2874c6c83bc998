//! Dominants that resolve to dominants.

use std::ops::Range;

use super::falls::{falls_a_fifth, is_dominant};
use super::run::runs;
use crate::theory::{Degree, Numeral};

/// Every run of three or more dominant sevenths, each a fifth below the one before, that
/// lead on to the end: I7 and IV7 of the blues come to rest.
pub(super) fn find(line: &[&Numeral]) -> Vec<Range<usize>> {
    let mut found = runs(line, |one, next| {
        is_dominant(one) && is_dominant(next) && falls_a_fifth(one, next)
    });
    for run in &mut found {
        run.end -= resting(line, run);
    }
    found.retain(|run| run.len() >= 3);
    found
}

/// How many chords at the end of a run rest: I7, or I7 and IV7, that nothing follows a fifth
/// below.
fn resting(line: &[&Numeral], run: &Range<usize>) -> usize {
    let is_on = |at: usize, number: u8| {
        line[at].root() == Degree::new(number, 0) && line[at].target.is_none()
    };
    let last = run.end - 1;
    let leads = line
        .get(run.end)
        .is_some_and(|next| falls_a_fifth(line[last], next));
    match () {
        () if leads => 0,
        () if is_on(last, 1) => 1,
        () if run.len() > 1 && is_on(last, 4) && is_on(last - 1, 1) => 2,
        () => 0,
    }
}

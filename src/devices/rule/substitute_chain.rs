//! Dominants that slide down to dominants.

use std::ops::Range;

use super::falls::{falls_a_semitone, is_dominant};
use super::run::runs;
use crate::theory::Numeral;

/// Every run of three or more dominant sevenths, each a semitone below the one before.
pub(super) fn find(line: &[&Numeral]) -> Vec<Range<usize>> {
    let mut found = runs(line, |one, next| {
        is_dominant(one) && is_dominant(next) && falls_a_semitone(one, next)
    });
    found.retain(|run| run.len() >= 3);
    found
}

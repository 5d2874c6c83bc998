//! Runs of chords that follow each other in one way.

use std::ops::Range;

use crate::theory::Numeral;

/// The longest runs of two chords or more in which each chord follows the one before as
/// `follows` says. Runs may share their outer chords.
pub(super) fn runs(
    line: &[&Numeral],
    follows: impl Fn(&Numeral, &Numeral) -> bool,
) -> Vec<Range<usize>> {
    let mut found: Vec<Range<usize>> = Vec::new();
    for (index, pair) in line.windows(2).enumerate() {
        if !follows(pair[0], pair[1]) {
            continue;
        }
        match found.last_mut() {
            Some(run) if run.end == index + 1 => run.end += 1,
            Some(_) | None => found.push(index..index + 2),
        }
    }
    found
}

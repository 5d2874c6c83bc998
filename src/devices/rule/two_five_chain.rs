//! ii-Vs whose targets become the next ii.

use std::ops::Range;

use super::falls::{falls_a_fifth, is_two_five};
use crate::theory::Numeral;

/// Every run of two or more ii-Vs, each beginning on the root that the one before aims at.
pub(super) fn find(line: &[&Numeral]) -> Vec<Range<usize>> {
    let two_five = |at: usize| at + 1 < line.len() && is_two_five(line[at], line[at + 1]);
    let mut found = Vec::new();
    let mut at = 0;
    while at + 3 < line.len() {
        let mut end = at;
        while two_five(end) && (end == at || falls_a_fifth(line[end - 1], line[end])) {
            end += 2;
        }
        if end - at >= 4 {
            found.push(at..end);
        }
        at = end.max(at + 1);
    }
    found
}

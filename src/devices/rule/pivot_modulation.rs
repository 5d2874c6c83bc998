//! A chord of two keys, and a new key confirmed after it.

use std::ops::Range;

use super::falls::{falls_a_fifth, is_dominant};
use super::scale::holds;
use crate::devices::shape::{Kind, Shape};
use crate::theory::{Degree, Mode, Numeral};

/// The pivot, the new dominant and the new tonic, wherever the new key is confirmed: by a
/// second cadence in it, or by the end of the line.
pub(super) fn find(line: &[&Numeral], home: Mode) -> Vec<Range<usize>> {
    let mut found: Vec<Range<usize>> = Vec::new();
    let mut at = 1;
    while at + 2 < line.len() {
        if let Some(end) = departure(line, at, home) {
            found.push(at..at + 3);
            at = end;
        } else {
            at += 1;
        }
    }
    found
}

/// The end of the stretch in the new key, if the chord at `at` is a pivot to it.
fn departure(line: &[&Numeral], at: usize, home: Mode) -> Option<usize> {
    let [pivot, dominant, tonic] = line.get(at..at + 3)? else {
        return None;
    };
    let mode = match Shape::of(tonic).kind {
        Kind::Major => Mode::Major,
        Kind::Minor => Mode::Minor,
        Kind::Dominant
        | Kind::HalfDiminished
        | Kind::Diminished
        | Kind::Augmented
        | Kind::Suspended => return None,
    };
    let key = tonic.root();
    let turns = key != Degree::TONIC
        && is_dominant(dominant)
        && falls_a_fifth(dominant, tonic)
        && !is_dominant(pivot)
        && holds(Degree::TONIC, home, pivot)
        && holds(key, mode, pivot);
    if !turns {
        return None;
    }
    let stays = line[at..]
        .iter()
        .take_while(|chord| holds(key, mode, chord))
        .count();
    let stretch = &line[at..at + stays];
    let cadences = stretch
        .windows(2)
        .filter(|pair| {
            is_dominant(pair[0]) && pair[1].root() == key && falls_a_fifth(pair[0], pair[1])
        })
        .count();
    let ends_here =
        at + stays == line.len() && stays > 3 && stretch.last().is_some_and(|c| c.root() == key);
    (cadences >= 2 || ends_here).then_some(at + stays)
}

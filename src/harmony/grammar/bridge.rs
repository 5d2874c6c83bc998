//! Fills the gap between two chords with a path of given length, drawn in proportion to
//! the product of its weights.

use rand::{Rng, RngExt};

use super::transition::weight;
use crate::theory::{Mode, Numeral};

/// Draws `length` chords between `from` and `to`, either of which may be open. Nothing if
/// no path of that length joins them.
pub(super) fn bridge(
    from: Option<&Numeral>,
    to: Option<&Numeral>,
    length: usize,
    fillers: &[Numeral],
    mode: Mode,
    random: &mut impl Rng,
) -> Option<Vec<Numeral>> {
    let leave = |chord: &Numeral| to.map_or(1.0, |to| weight(chord, to, fillers, mode));
    if length == 0 {
        return from.is_none_or(|from| leave(from) > 0.0).then(Vec::new);
    }
    // ahead[k][i]: total weight of all ways on from filler i with k chords still to come.
    let mut ahead: Vec<Vec<f64>> = vec![fillers.iter().map(leave).collect()];
    for _ in 1..length {
        let last = ahead.last().expect("there is at least one row");
        let row = fillers.iter().map(|chord| {
            let onward = fillers.iter().zip(last);
            onward
                .map(|(next, ahead)| weight(chord, next, fillers, mode) * ahead)
                .sum()
        });
        let row = row.collect();
        ahead.push(row);
    }
    let mut path: Vec<Numeral> = Vec::with_capacity(length);
    for row in ahead.iter().rev() {
        let before = path.last().or(from);
        let weights: Vec<f64> = fillers
            .iter()
            .zip(row)
            .map(|(chord, ahead)| {
                before.map_or(1.0, |before| weight(before, chord, fillers, mode)) * ahead
            })
            .collect();
        path.push(fillers[draw(&weights, random)?].clone());
    }
    Some(path)
}

/// An index drawn in proportion to the weights; nothing if all are 0.
pub(super) fn draw(weights: &[f64], random: &mut impl Rng) -> Option<usize> {
    let total: f64 = weights.iter().sum();
    if total <= 0.0 {
        return None;
    }
    let mut left = random.random_range(0.0..total);
    let drawn = weights.iter().position(|weight| {
        left -= weight;
        left < 0.0
    });
    drawn.or_else(|| weights.iter().rposition(|weight| *weight > 0.0))
}

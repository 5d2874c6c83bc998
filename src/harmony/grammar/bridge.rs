//! Fills the gap between two chords with a path of given length, drawn in proportion to
//! the product of its weights.

use rand::{Rng, RngExt};

use super::chord::Chord;
use super::vocabulary::Vocabulary;

/// Draws a filler for each place between `from` and `to`, either of which may be open:
/// indices into the vocabulary. `favour` weighs a filler in a place of the gap. Nothing
/// if no path of that length joins them.
pub(super) fn bridge(
    from: Option<&Chord>,
    to: Option<&Chord>,
    length: usize,
    vocabulary: &Vocabulary,
    favour: impl Fn(usize, &Chord) -> f64,
    random: &mut impl Rng,
) -> Option<Vec<usize>> {
    let fillers = &vocabulary.fillers;
    if length == 0 {
        let joined = match (from, to) {
            (Some(from), Some(to)) => vocabulary.weight(from, to) > 0.0,
            (None, _) | (_, None) => true,
        };
        return joined.then(Vec::new);
    }
    // ahead[k][i]: total weight of all ways on from filler i in the k-th place from the end.
    let leave = |chord| to.map_or(1.0, |to| vocabulary.weight(chord, to));
    let mut ahead: Vec<Vec<f64>> = Vec::with_capacity(length);
    for back in 0..length {
        let place = length - 1 - back;
        let row = fillers.iter().map(|chord| {
            let onward: f64 = match ahead.last() {
                None => leave(chord),
                Some(last) => fillers
                    .iter()
                    .zip(last)
                    .map(|(next, ahead)| vocabulary.weight(chord, next) * ahead)
                    .sum(),
            };
            onward * favour(place, chord)
        });
        let row = row.collect();
        ahead.push(row);
    }
    let mut path: Vec<usize> = Vec::with_capacity(length);
    for row in ahead.iter().rev() {
        let before = path.last().map(|at| &fillers[*at]).or(from);
        let weights: Vec<f64> = fillers
            .iter()
            .zip(row)
            .map(|(chord, ahead)| {
                before.map_or(1.0, |before| vocabulary.weight(before, chord)) * ahead
            })
            .collect();
        path.push(draw(&weights, random)?);
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

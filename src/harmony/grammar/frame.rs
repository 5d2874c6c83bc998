//! The frame of a line that goes as tunes do: which bars answer which, where chords fall,
//! and how the line ends. Drawn before anything is known of the device.

use rand::Rng;

use super::bridge::draw;
use super::form::{self, Phrase};
use super::pulse::{self, Close, Pace};
use super::rhythm::{Cell, halves};
use crate::theory::{Meter, TICKS_PER_BEAT, Ticks};

/// How often lines of tunes close at rest, on the dominant, and on the dominant of another
/// chord.
const CLOSES: [f64; 3] = [0.42, 0.44, 0.14];

/// Draws how a line ends.
pub(super) fn close(random: &mut impl Rng) -> Close {
    match draw(&CLOSES, random) {
        Some(1) => Close::Dominant,
        Some(2) => Close::Onward,
        Some(_) | None => Close::Home,
    }
}

/// Bars of a phrase, and an earlier phrase that it begins like, with how many bars.
type Part = (usize, Option<(usize, usize)>);

/// Draws the phrases of a line: short ones as sentences (an idea, the idea again, on to the
/// cadence) and periods (a question, an answer that begins like it); long ones as forms.
fn phrases(bars: usize, random: &mut impl Rng) -> Vec<Phrase> {
    let ways: &[(f64, &[Part])] = match bars {
        4 => &[(8.0, &[(4, None)]), (1.0, &[(2, None), (2, Some((0, 1)))])],
        6 => &[
            (4.0, &[(6, None)]),
            (2.0, &[(4, None), (2, None)]),
            (1.0, &[(2, None), (2, Some((0, 2))), (2, None)]),
        ],
        8 => &[
            (8.0, &[(8, None)]),
            (5.0, &[(2, None), (2, Some((0, 2))), (4, None)]),
            (1.0, &[(4, None), (4, Some((0, 1)))]),
            (1.5, &[(4, None), (4, Some((0, 2)))]),
            (0.7, &[(4, None), (4, Some((0, 3)))]),
            (0.4, &[(4, None), (4, Some((0, 4)))]),
        ],
        _ => return form::form(bars, random),
    };
    let weights: Vec<f64> = ways.iter().map(|(weight, _)| *weight).collect();
    let drawn = draw(&weights, random).unwrap_or(0);
    let phrase = |(bars, like): &Part| Phrase {
        bars: *bars,
        like: *like,
        contrasts: false,
    };
    ways[drawn].1.iter().map(phrase).collect()
}

/// The fewest chords that a line of so many bars is given.
fn floor(bars: usize) -> usize {
    if bars < 4 { 2 * bars - 1 } else { bars.min(5) }
}

/// Draws the cells of a line that ends so.
pub(super) fn cells(bars: usize, meter: Meter, close: Close, random: &mut impl Rng) -> Vec<Cell> {
    loop {
        let phrases = phrases(bars, random);
        let pace = Pace::drawn(meter, random);
        let counts = counts(&phrases, pace, close, random);
        let cells = laid_out(&phrases, &counts, meter);
        if cells.len() >= floor(bars) {
            return cells;
        }
    }
}

/// How many chords each bar of each phrase has.
fn counts(phrases: &[Phrase], pace: Pace, close: Close, random: &mut impl Rng) -> Vec<Vec<usize>> {
    let mut counts: Vec<Vec<usize>> = Vec::with_capacity(phrases.len());
    for (number, phrase) in phrases.iter().enumerate() {
        let (model, shared) = phrase.like.unwrap_or((0, 0));
        let mut own: Vec<usize> = counts.get(model).map_or_else(Vec::new, |model| {
            model.iter().copied().take(shared).collect()
        });
        let ends = (number + 1 == phrases.len()).then_some(close);
        own.extend(pulse::bars(shared, phrase.bars, pace, ends, random));
        counts.push(own);
    }
    counts
}

/// The cells of bars with so many chords.
fn laid_out(phrases: &[Phrase], counts: &[Vec<usize>], meter: Meter) -> Vec<Cell> {
    let mut cells: Vec<Cell> = Vec::new();
    // The cells in which each bar of each phrase begins.
    let mut starts: Vec<Vec<usize>> = Vec::with_capacity(phrases.len());
    for (phrase, counts) in phrases.iter().zip(counts) {
        let mut own = Vec::with_capacity(counts.len() + 1);
        let first = cells.len();
        for (bar, count) in counts.iter().enumerate() {
            own.push(cells.len());
            if let (0, Some(last)) = (*count, cells.last_mut()) {
                last.length += meter.bar();
                continue;
            }
            let model = phrase.like.filter(|(_, shared)| bar < *shared);
            let lengths = lengths(*count, meter);
            for (nth, length) in lengths.into_iter().enumerate() {
                let copy_of = model.map(|(model, _)| {
                    let at = starts[model][bar] + nth;
                    cells[at].copy_of.unwrap_or(at)
                });
                cells.push(Cell {
                    length,
                    on_bar: nth == 0,
                    strong: nth == 0 && bar % 2 == 0,
                    ends_phrase: false,
                    copy_of,
                    contrasts: false,
                });
            }
        }
        cells[first].contrasts = phrase.contrasts;
        if let Some(last) = cells.last_mut() {
            last.ends_phrase = true;
        }
        starts.push(own);
    }
    cells
}

/// How long the chords of a bar last.
fn lengths(count: usize, meter: Meter) -> Vec<Ticks> {
    match (count, meter) {
        (0 | 1, _) => vec![meter.bar()],
        (3, Meter::FourFour) => vec![2 * TICKS_PER_BEAT, TICKS_PER_BEAT, TICKS_PER_BEAT],
        (_, _) => halves(meter).to_vec(),
    }
}

#[cfg(test)]
mod tests {
    use rand::SeedableRng;
    use rand_chacha::ChaCha8Rng;

    use super::*;

    #[test]
    fn cells_fill_the_bars_and_copies_point_at_cells_that_are_none() {
        let mut random = ChaCha8Rng::seed_from_u64(1);
        for meter in Meter::ALL {
            for bars in 2..=32 {
                for _ in 0..20 {
                    let close = close(&mut random);
                    let cells = cells(bars, meter, close, &mut random);
                    let length: Ticks = cells.iter().map(|cell| cell.length).sum();
                    assert_eq!(length, meter.bar() * bars as Ticks);
                    assert!(cells.len() >= floor(bars));
                    for (at, cell) in cells.iter().enumerate() {
                        if let Some(source) = cell.copy_of {
                            assert!(source < at && cells[source].copy_of.is_none());
                            assert_eq!(cell.on_bar, cells[source].on_bar);
                        }
                    }
                }
            }
        }
    }
}

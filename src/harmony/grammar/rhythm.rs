//! Harmonic rhythm: the cells of a line, each the place of one chord.
//!
//! Drawn before any chord and without a look at the device, so that where a chord stands
//! and how long it lasts say nothing of what it is.

use rand::{Rng, RngExt};

use super::bridge::draw;
use super::form::Phrase;
use crate::theory::{Meter, TICKS_PER_BEAT, Ticks};

/// The place of one chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Cell {
    pub(super) length: Ticks,
    /// Whether it begins with a bar.
    pub(super) on_bar: bool,
    /// Whether that is the first bar of a pair.
    pub(super) strong: bool,
    /// Whether its phrase ends with it.
    pub(super) ends_phrase: bool,
    /// The earlier cell that has the same chord, in a phrase that begins like another.
    pub(super) copy_of: Option<usize>,
    /// Whether a phrase begins with it that stands against those before.
    pub(super) contrasts: bool,
}

/// How fast chords follow each other in a line.
#[derive(Clone, Copy)]
enum Pace {
    Calm,
    Even,
    Brisk,
}

impl Pace {
    /// Weights of a chord for two bars, for one, and of two chords in a bar.
    fn weights(self, meter: Meter) -> [f64; 3] {
        let [long, whole, split] = match self {
            Self::Calm => [0.35, 1.0, 0.12],
            Self::Even => [0.08, 1.0, 0.4],
            Self::Brisk => [0.03, 1.0, 1.1],
        };
        match meter {
            Meter::FourFour => [long, whole, split],
            // Shorter bars are seldom shared.
            Meter::ThreeFour | Meter::TwoFour => [long, whole, split * 0.25],
        }
    }
}

/// The most chords that bars can hold: two a bar, one in the last.
pub(super) fn capacity(bars: usize) -> usize {
    2 * bars - 1
}

/// The fewest chords that a line of so many bars is given: enough for an opening, most
/// devices and a close.
fn floor(bars: usize) -> usize {
    capacity(bars).min(5)
}

/// Draws the cells of a line.
pub(super) fn cells(phrases: &[Phrase], meter: Meter, random: &mut impl Rng) -> Vec<Cell> {
    let pace = [Pace::Calm, Pace::Even, Pace::Brisk][draw(&[1.0, 2.0, 1.6], random).unwrap_or(1)];
    let bars: usize = phrases.iter().map(|phrase| phrase.bars).sum();
    loop {
        let mut cells: Vec<Cell> = Vec::with_capacity(2 * bars);
        let mut starts = Vec::with_capacity(phrases.len());
        for phrase in phrases {
            starts.push(cells.len());
            add_phrase(&mut cells, &starts, *phrase, pace, meter, random);
        }
        if cells.len() >= floor(bars) {
            return cells;
        }
        if let Some(cells) = split_some(cells, floor(bars), meter, random) {
            return cells;
        }
    }
}

fn add_phrase(
    cells: &mut Vec<Cell>,
    starts: &[usize],
    phrase: Phrase,
    pace: Pace,
    meter: Meter,
    random: &mut impl Rng,
) {
    let bar = meter.bar();
    let mut done = 0;
    if let Some((model, shared)) = phrase.like {
        let shared = bar * shared as Ticks;
        let mut at = starts[model];
        while done < shared {
            let length = cells[at].length.min(shared - done);
            cells.push(Cell {
                length,
                on_bar: cells[at].on_bar,
                strong: cells[at].strong,
                ends_phrase: false,
                copy_of: Some(cells[at].copy_of.unwrap_or(at)),
                contrasts: false,
            });
            done += length;
            at += 1;
        }
    }
    let mut bar_number = (done / bar) as usize;
    while bar_number < phrase.bars {
        let left = phrase.bars - bar_number;
        let [mut long, whole, mut split] = pace.weights(meter);
        if left == 1 {
            (long, split) = (0.0, 0.0);
        } else if left == 2 {
            // The close gathers speed, or the last chord is held.
            (long, split) = (long * 3.0, split * 1.8);
        } else if left % 2 == 1 {
            long *= 0.2;
        }
        let mut push = |length: Ticks, on_bar: bool| {
            cells.push(Cell {
                length,
                on_bar,
                strong: on_bar && bar_number.is_multiple_of(2),
                ends_phrase: false,
                copy_of: None,
                contrasts: false,
            });
        };
        match draw(&[long, whole, split], random) {
            Some(0) => {
                push(2 * bar, true);
                bar_number += 1;
            }
            Some(2) => {
                let [first, second] = halves(meter);
                push(first, true);
                push(second, false);
            }
            Some(_) | None => push(bar, true),
        }
        bar_number += 1;
    }
    let last = cells.last_mut().expect("a phrase has at least one chord");
    last.ends_phrase = true;
    let first = starts.last().expect("the phrase has a start");
    cells[*first].contrasts = phrase.contrasts;
}

/// The two parts of a bar that two chords share.
pub(super) fn halves(meter: Meter) -> [Ticks; 2] {
    match meter {
        Meter::FourFour => [2 * TICKS_PER_BEAT, 2 * TICKS_PER_BEAT],
        Meter::ThreeFour => [2 * TICKS_PER_BEAT, TICKS_PER_BEAT],
        Meter::TwoFour => [TICKS_PER_BEAT, TICKS_PER_BEAT],
    }
}

/// Splits whole bars until there are `wanted` cells. Only lines without copies are so
/// short that they need it; the others are drawn again.
fn split_some(
    mut cells: Vec<Cell>,
    wanted: usize,
    meter: Meter,
    random: &mut impl Rng,
) -> Option<Vec<Cell>> {
    let bar = meter.bar();
    if cells.iter().any(|cell| cell.copy_of.is_some()) {
        return None;
    }
    while cells.len() < wanted {
        let long = |(at, cell): (usize, &Cell)| {
            (cell.length > bar || (cell.length == bar && at + 1 < cells.len())).then_some(at)
        };
        let whole: Vec<usize> = cells.iter().enumerate().filter_map(long).collect();
        let at = *whole.get(random.random_range(0..whole.len().max(1)))?;
        let [first, second] = if cells[at].length > bar {
            [bar, cells[at].length - bar]
        } else {
            halves(meter)
        };
        let on_bar = first == bar;
        let ends_phrase = cells[at].ends_phrase;
        cells[at].length = first;
        cells[at].ends_phrase = false;
        cells.insert(
            at + 1,
            Cell {
                length: second,
                on_bar,
                strong: false,
                ends_phrase,
                copy_of: None,
                contrasts: false,
            },
        );
    }
    Some(cells)
}

#[cfg(test)]
mod tests {
    use rand::SeedableRng;
    use rand_chacha::ChaCha8Rng;

    use super::super::form::form;
    use super::*;

    #[test]
    fn cells_fill_the_bars_and_the_last_has_a_whole_one() {
        let mut random = ChaCha8Rng::seed_from_u64(1);
        for meter in Meter::ALL {
            for bars in 2..=32 {
                for _ in 0..20 {
                    let phrases = form(bars, &mut random);
                    let cells = cells(&phrases, meter, &mut random);
                    let length: Ticks = cells.iter().map(|cell| cell.length).sum();
                    assert_eq!(length, meter.bar() * bars as Ticks);
                    assert!(cells.len() >= floor(bars) && cells.len() <= capacity(bars));
                    let last = cells.last().expect("there are cells");
                    assert!(last.length >= meter.bar() && last.ends_phrase);
                    let ends = cells.iter().filter(|cell| cell.ends_phrase).count();
                    assert_eq!(ends, phrases.len());
                }
            }
        }
    }

    #[test]
    fn copies_point_at_cells_that_are_no_copies() {
        let mut random = ChaCha8Rng::seed_from_u64(2);
        for _ in 0..200 {
            let cells = cells(&form(32, &mut random), Meter::FourFour, &mut random);
            for (at, cell) in cells.iter().enumerate() {
                if let Some(source) = cell.copy_of {
                    assert!(source < at && cells[source].copy_of.is_none());
                }
            }
        }
    }
}

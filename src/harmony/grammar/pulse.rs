//! Harmonic rhythm of many kinds, for lines that go as tunes do: how many chords each bar
//! has, none where the one before is held.
//!
//! Tunes keep a pace and change it where a phrase arrives; a bar that only holds is the
//! second of a pair. The weights are set by hand.

use rand::{Rng, RngExt};

use super::bridge::draw;
use crate::theory::Meter;

/// How fast chords follow each other in a line.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Pace {
    /// A chord for two bars as often as not.
    Broad,
    /// A chord a bar.
    Even,
    /// Two chords in most bars.
    Busy,
    /// Bars of one chord and of two in turn.
    Mixed,
}

/// Chords in a bar: none, one, two, three.
type Shares = [f64; 4];

impl Pace {
    pub(super) fn drawn(meter: Meter, random: &mut impl Rng) -> Self {
        let all = [Self::Broad, Self::Even, Self::Busy, Self::Mixed];
        let shares = match meter {
            Meter::FourFour => [3.0, 3.0, 1.5, 2.5],
            // Shorter bars are seldom shared.
            Meter::ThreeFour | Meter::TwoFour => [4.0, 5.0, 0.2, 1.0],
        };
        all[draw(&shares, random).unwrap_or(1)]
    }

    /// Of the first bar of a pair, and of the second.
    fn shares(self) -> [Shares; 2] {
        match self {
            Self::Broad => [[0.1, 1.0, 0.06, 0.0], [1.0, 0.6, 0.1, 0.0]],
            Self::Even => [[0.03, 1.0, 0.1, 0.0], [0.25, 1.0, 0.2, 0.01]],
            Self::Busy => [[0.0, 0.15, 1.0, 0.04], [0.03, 0.12, 1.0, 0.04]],
            Self::Mixed => [[0.02, 1.0, 0.5, 0.02], [0.25, 0.5, 1.0, 0.05]],
        }
    }
}

/// How a line ends.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Close {
    /// At rest on the tonic.
    Home,
    /// On the dominant, which leads on or round to the beginning.
    Dominant,
    /// On the dominant of a chord on which another phrase would begin.
    Onward,
}

/// Draws how many chords each bar of a phrase has from bar `done` on.
pub(super) fn bars(
    done: usize,
    count: usize,
    pace: Pace,
    close: Option<Close>,
    random: &mut impl Rng,
) -> Vec<usize> {
    let mut bars: Vec<usize> = Vec::with_capacity(count);
    // A phrase now and then changes its pace half-way.
    let turn = random.random_bool(0.25).then_some(count / 2);
    let other = [Pace::Even, Pace::Mixed, Pace::Busy][random.random_range(0..3)];
    for bar in done..count {
        let pace = match turn {
            Some(turn) if bar >= turn && pace != Pace::Broad => other,
            Some(_) | None => pace,
        };
        let mut shares = pace.shares()[bar % 2];
        if bar == done {
            shares[0] = 0.0;
        }
        if bar + 1 == count {
            match close {
                // Home is reached a bar early as often as not, and held.
                Some(Close::Home) => shares = [0.9, 1.0, 0.04, 0.0],
                // Two chords turn round.
                Some(Close::Dominant | Close::Onward) => shares[2] *= 1.5,
                None => {}
            }
        } else if bar + 2 == count && close == Some(Close::Home) {
            shares[0] = 0.0;
        }
        if bar > 1 && bars.len() > 1 && bars.ends_with(&[0]) {
            // Two bars that hold make one chord long.
            shares[0] *= 0.15;
        }
        if bars.last().is_some_and(|last| *last > 1) && bar + 1 < count {
            // What comes in the middle of a bar is seldom held beyond it.
            shares[0] *= 0.1;
        }
        bars.push(draw(&shares, random).unwrap_or(1));
    }
    bars
}

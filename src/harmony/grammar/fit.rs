//! Where in a line a device can stand at all.
//!
//! The frame of a line is drawn from the places where every device of the company could
//! stand as well as the wanted one, so that neither its length nor the place of the asked
//! chord tells which of them it is.

use super::chord::Chord;
use super::paths::{FAR, Fillers, Paths};
use super::vocabulary::Vocabulary;
use crate::devices::{Device, Expansion};
use crate::theory::{Degree, Numeral};

/// One expansion with one of its own chords asked.
struct Placement {
    /// Chords before the asked one and after it, within the expansion.
    before: usize,
    after: usize,
    /// Bit k: whether the expansion may begin after k other chords, or end before k.
    begins: u32,
    ends: u32,
}

/// Every place where a device can stand.
pub(super) struct Fit {
    placements: Vec<Placement>,
}

impl Fit {
    /// Nothing for a device that stands only at the beginning or the end of a line.
    pub(super) fn of(device: &Device, vocabulary: &Vocabulary) -> Option<Self> {
        let paths = &vocabulary.paths;
        let mut placements = Vec::new();
        let free = |expansion: &&Expansion| !expansion.at_start && !expansion.at_end;
        for expansion in device.expansions_in(vocabulary.mode).filter(free) {
            let mut chords = expansion.chords();
            let first = chords.next()?;
            let last = chords.last().unwrap_or(first);
            let mut begins = begins(&first.numeral, vocabulary, paths);
            let mut ends = ends(&last.numeral, vocabulary, paths);
            if is_there_and_back(expansion, vocabulary) {
                // Home, a chord, home, and the same once more would repeat itself.
                begins &= !(1 << 2);
                ends &= !(1 << 2);
            }
            for offset in 0..expansion.own.len() {
                let before = expansion.before.len() + offset;
                let after = expansion.len() - before - 1;
                placements.push(Placement {
                    before,
                    after,
                    begins,
                    ends,
                });
            }
        }
        (!placements.is_empty()).then_some(Self { placements })
    }

    /// Whether one of the device's own chords can stand in cell `at` of `cells`.
    pub(super) fn stands(&self, at: usize, cells: usize) -> bool {
        self.placements.iter().any(|placement| {
            let before = at.checked_sub(placement.before);
            let after = (cells - 1 - at).checked_sub(placement.after);
            match (before, after) {
                (Some(before), Some(after)) => {
                    placement.begins & 1 << before.min(FAR) != 0
                        && placement.ends & 1 << after.min(FAR) != 0
                }
                (None, _) | (_, None) => false,
            }
        })
    }
}

/// Whether an expansion leaves home for a single chord.
fn is_there_and_back(expansion: &Expansion, vocabulary: &Vocabulary) -> bool {
    let home = |numeral: &Numeral| vocabulary.chord(numeral.clone(), false).is_home();
    let mut chords = expansion.chords().map(|wanted| &wanted.numeral);
    expansion.len() == 3 && chords.next().is_some_and(home) && chords.nth(1).is_some_and(home)
}

fn begins(first: &Numeral, vocabulary: &Vocabulary, paths: &Paths) -> u32 {
    let rests = first.bass.is_none() && first.target.is_none();
    let mut bits = u32::from(first.root() == Degree::TONIC && rests);
    let first = vocabulary.chord(first.clone(), false);
    let leading = fillers(vocabulary, |filler| vocabulary.weight(filler, &first));
    for k in 1..=FAR {
        bits |= u32::from(paths.from_home[k - 1] & leading != 0) << k;
    }
    bits
}

fn ends(last: &Numeral, vocabulary: &Vocabulary, paths: &Paths) -> u32 {
    let last = vocabulary.chord(last.clone(), false);
    let following = fillers(vocabulary, |filler| vocabulary.weight(&last, filler));
    let mut bits = u32::from(last.is_home() && !last.inverted);
    for k in 1..=FAR {
        bits |= u32::from(paths.to_home[k - 1] & following != 0) << k;
    }
    bits
}

fn fillers(vocabulary: &Vocabulary, weight: impl Fn(&Chord) -> f64) -> Fillers {
    let all = vocabulary.fillers.iter().enumerate();
    all.filter(|(_, filler)| weight(filler) > 0.0)
        .fold(0, |set, (at, _)| set | 1 << at)
}

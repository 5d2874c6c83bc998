//! Reads chord symbols in a key: numerals, roles and devices, with the other readings that
//! each chord allows.
//!
//! Roots are taken by their sound, not by how the chart spells them: E♭7 in D may be ♭II7.
//! Where a chord goes decides its spelling and its name.

mod namesake;
mod spelling;

pub use namesake::namesakes;

use super::analysis::{Context, role};
use super::equivalence::ChordInContext;
use super::role::Role;
use crate::devices::{Catalogue, Occurrence, Shape};
use crate::theory::{Head, Key, Mode, Numeral, Symbol};
use spelling::numeral;

/// One way to take a chord.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The name of the chord in this reading.
    pub numeral: Numeral,
    /// What it does there.
    pub role: Role,
    /// How well it is supported, 0 to 1; the readings of a chord add up to 1.
    pub weight: f64,
}

/// Chords read in a key.
#[derive(Clone, Debug, PartialEq)]
pub struct Analysis {
    /// The key that they are read in.
    pub key: Key,
    /// The readings of each chord, the best first; never empty.
    pub readings: Vec<Vec<Reading>>,
    /// The devices found in the best readings.
    pub devices: Vec<Occurrence>,
}

impl Analysis {
    /// The best numeral of each chord.
    pub fn numerals(&self) -> impl Iterator<Item = &Numeral> {
        self.readings.iter().map(|readings| &readings[0].numeral)
    }
}

/// Reads chord symbols in a key, all of which belong to one line that turns back at its
/// end. Neighbours that are alike should be one symbol.
#[must_use]
pub fn analyse(symbols: &[Symbol], key: Key, catalogue: &Catalogue) -> Analysis {
    let count = symbols.len();
    let plain: Vec<Numeral> = (0..count)
        .map(|at| numeral(&symbols[at], &symbols[(at + 1) % count], key))
        .collect();
    let readings: Vec<Vec<Reading>> = (0..count)
        .map(|at| readings(&plain[at], &context(&plain, at, key.mode())))
        .collect();
    let best: Vec<&Numeral> = readings.iter().map(|all| &all[0].numeral).collect();
    let devices = catalogue.find(&best, key.mode());
    Analysis {
        key,
        readings,
        devices,
    }
}

fn context(line: &[Numeral], at: usize, mode: Mode) -> Context {
    let chord = |at: usize| line[at % line.len()].clone();
    Context {
        mode,
        before: at.checked_sub(1).map(chord),
        next: chord(at + 1),
        after: Some(chord(at + 2)),
    }
}

/// Weights of the chosen reading, of another that stands here too, and of one that would
/// need another context.
const CHOSEN: f64 = 1.0;
const STANDS: f64 = 0.35;
const ELSEWHERE: f64 = 0.06;

/// The readings of a chord: its own name, the names that stand beside it, and those that
/// its notes bear elsewhere.
fn readings(chord: &Numeral, context: &Context) -> Vec<Reading> {
    let sounding = ChordInContext::new(chord.clone(), context.clone());
    let mut all = vec![Reading {
        numeral: named(chord, &sounding),
        role: sounding.role,
        weight: CHOSEN,
    }];
    let mut add = |numeral: Numeral, weight: f64| {
        let is_new = all
            .iter()
            .all(|known| Shape::acting(&known.numeral) != Shape::acting(&numeral));
        if is_new {
            let role = role(&numeral, context);
            all.push(Reading {
                numeral,
                role,
                weight,
            });
        }
    };
    for name in sounding.accepted() {
        add(name, STANDS);
    }
    for name in namesakes(chord) {
        // A name on the note in the bass is the more likely.
        let rooted = name.root() == chord.sounding_bass();
        add(name, if rooted { 2.0 * ELSEWHERE } else { ELSEWHERE });
    }
    let total: f64 = all.iter().map(|reading| reading.weight).sum();
    for reading in &mut all {
        reading.weight /= total;
    }
    all
}

/// The chord with its own quality and bass under its usual name.
fn named(chord: &Numeral, sounding: &ChordInContext) -> Numeral {
    let usual = sounding.usual();
    let same_root = Shape::acting(&usual).root == Shape::acting(chord).root;
    if let (Head::Roman { root, .. }, Some(target)) = (usual.head, usual.target)
        && let Head::Roman { quality, .. } = chord.head
        && same_root
    {
        return Numeral {
            head: Head::Roman { root, quality },
            target: Some(target),
            bass: chord.bass,
        };
    }
    chord.clone()
}

#[cfg(test)]
mod tests;

//! The chords that fill a line around devices, and how readily one goes to another.

use std::sync::OnceLock;

use super::chord::Chord;
use super::paths::Paths;
use super::phrasing::Phrasing;
use super::table::Row;
use super::{motion, plain, tunes};
use crate::devices::Shape;
use crate::theory::{Mode, Numeral, Quality};

/// Fillers and the weights between them.
pub(super) struct Vocabulary {
    pub(super) mode: Mode,
    /// The tonic first.
    pub(super) fillers: Vec<Chord>,
    weights: Vec<Vec<f64>>,
    /// Whether each filler is one of the plain chords of the key.
    plain: Vec<bool>,
    /// The paths that lead from home and back.
    pub(super) paths: Paths,
}

impl Vocabulary {
    /// The vocabulary of a mode in a manner, made once.
    pub(super) fn of(mode: Mode, phrasing: Phrasing) -> &'static Self {
        type Made = OnceLock<Vocabulary>;
        static PLAIN: [Made; 2] = [const { OnceLock::new() }; 2];
        static TUNES: [Made; 2] = [const { OnceLock::new() }; 2];
        let (made, [major, minor]) = match phrasing {
            Phrasing::Plain => (&PLAIN, [plain::MAJOR, plain::MINOR]),
            Phrasing::Tune => (&TUNES, [tunes::MAJOR, tunes::MINOR]),
        };
        let (made, rows) = match mode {
            Mode::Major => (&made[0], major),
            Mode::Minor => (&made[1], minor),
        };
        made.get_or_init(|| {
            let mut vocabulary = Self::new(mode, rows);
            if phrasing == Phrasing::Tune {
                let of_key = &Self::of(mode, Phrasing::Plain).fillers;
                let all = vocabulary.fillers.iter();
                let is_plain = |chord: &Chord| of_key.iter().any(|other| other.is_like(chord));
                vocabulary.plain = all.map(is_plain).collect();
            }
            vocabulary
        })
    }

    fn new(mode: Mode, rows: &[Row]) -> Self {
        let mut vocabulary = Self {
            mode,
            fillers: Vec::with_capacity(rows.len()),
            weights: Vec::with_capacity(rows.len()),
            plain: vec![true; rows.len()],
            paths: Paths::NONE,
        };
        for (text, _) in rows {
            let mut chord = vocabulary.read(text);
            chord.filler = Some(vocabulary.fillers.len());
            vocabulary.fillers.push(chord);
        }
        let column = |text: &str| rows.iter().position(|(name, _)| *name == text);
        for (_, steps) in rows {
            let mut row = vec![0.0; rows.len()];
            for (to, weight) in *steps {
                row[column(to).expect("every column is a row")] = *weight;
            }
            vocabulary.weights.push(row);
        }
        vocabulary.paths = Paths::new(vocabulary.fillers.len(), |from, to| {
            let fillers = &vocabulary.fillers;
            vocabulary.weight(&fillers[from], &fillers[to]) > 0.0
        });
        vocabulary
    }

    /// A chord out of a table.
    pub(super) fn read(&self, text: &str) -> Chord {
        self.chord(text.parse().expect("the table holds numerals"), false)
    }

    /// A numeral as a chord of the board.
    pub(super) fn chord(&self, numeral: Numeral, exact: bool) -> Chord {
        let shape = Shape::acting(&numeral);
        let mut chord = Chord {
            shape,
            step: shape.root.interval().chromatic(),
            inverted: numeral.sounding_bass() != numeral.root(),
            filler: None,
            exact,
            numeral,
        };
        chord.filler = self.fillers.iter().position(|other| other.is_like(&chord));
        chord
    }

    pub(super) fn tonic(&self) -> Chord {
        self.fillers[0].clone()
    }

    pub(super) fn dominant(&self) -> Chord {
        let root = crate::theory::Degree::new(5, 0);
        self.chord(Numeral::roman(root, Quality::DOMINANT_SEVENTH), false)
    }

    /// How readily one chord goes to another; 0 where it does not.
    pub(super) fn weight(&self, from: &Chord, to: &Chord) -> f64 {
        if from.is_like(to) || motion::is_abrupt(from, to) {
            return 0.0;
        }
        match (from.filler, to.filler) {
            (Some(from), Some(to)) => self.weights[from][to],
            (None, _) => motion::leave(from, to) * if to.inverted { 0.3 } else { 1.0 },
            (Some(filler), None) if self.plain[filler] => motion::approach(from, to),
            (Some(_), None) => motion::leave(from, to),
        }
    }

    /// Whether a filler is one of the plain chords of the key.
    pub(super) fn is_plain(&self, filler: usize) -> bool {
        self.plain[filler]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn manners() -> impl Iterator<Item = (Mode, Phrasing)> {
        let modes = [Mode::Major, Mode::Minor].into_iter();
        modes.flat_map(|mode| Phrasing::ALL.map(|phrasing| (mode, phrasing)))
    }

    #[test]
    fn falling_fifths_weigh_most() {
        for (mode, phrasing) in manners() {
            let vocabulary = Vocabulary::of(mode, phrasing);
            let dominant = vocabulary.dominant();
            let home = vocabulary.weight(&dominant, &vocabulary.tonic());
            for filler in &vocabulary.fillers[1..] {
                assert!(vocabulary.weight(&dominant, filler) < home);
            }
        }
    }

    #[test]
    fn every_filler_leads_somewhere_and_is_reached() {
        for (mode, phrasing) in manners() {
            let vocabulary = Vocabulary::of(mode, phrasing);
            let all = &vocabulary.fillers;
            for one in all {
                assert!(all.iter().any(|other| vocabulary.weight(one, other) > 0.0));
                assert!(all.iter().any(|other| vocabulary.weight(other, one) > 0.0));
                assert!(vocabulary.weight(one, one).abs() < f64::EPSILON);
            }
        }
    }
}

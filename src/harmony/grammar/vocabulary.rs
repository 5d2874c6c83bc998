//! The chords that fill a line around devices, and how readily one goes to another.
//!
//! The weights follow common practice: root motion by falling fifth first, then by third
//! and by step; half of all root motion in the jazz repertoire is a falling fifth
//! (counted in the Jazz Harmony Treebank, Harasim et al. 2020).

use std::sync::OnceLock;

use super::chord::Chord;
use super::motion;
use super::paths::Paths;
use crate::devices::Shape;
use crate::theory::{Mode, Numeral, Quality};

/// Fillers and the weights between them.
pub(super) struct Vocabulary {
    pub(super) mode: Mode,
    /// The tonic first.
    pub(super) fillers: Vec<Chord>,
    weights: Vec<Vec<f64>>,
    /// The paths that lead from home and back.
    pub(super) paths: Paths,
}

type Row = (&'static str, &'static [(&'static str, f64)]);

const MAJOR: &[Row] = &[
    (
        "I",
        &[
            ("ii7", 3.0),
            ("iii7", 1.2),
            ("IV", 3.0),
            ("V7", 1.2),
            ("vi7", 3.0),
            ("I/3", 0.6),
            ("V7/7", 0.5),
            ("ii7/4", 0.5),
        ],
    ),
    (
        "ii7",
        &[
            ("V7", 9.0),
            ("V7/7", 0.7),
            ("iii7", 0.5),
            ("I/3", 0.4),
            ("IV", 0.3),
        ],
    ),
    ("iii7", &[("vi7", 5.0), ("IV", 2.0), ("ii7", 0.8)]),
    (
        "IV",
        &[
            ("I", 2.2),
            ("ii7", 2.0),
            ("V7", 3.0),
            ("iii7", 0.7),
            ("vi7", 0.2),
            ("I/3", 0.8),
            ("V7/7", 0.4),
        ],
    ),
    // Back to IV only in the blues, where the form has it so.
    (
        "V7",
        &[("I", 8.0), ("vi7", 1.0), ("iii7", 0.4), ("I/3", 0.7)],
    ),
    (
        "vi7",
        &[
            ("ii7", 5.0),
            ("IV", 2.5),
            ("iii7", 0.6),
            ("V7", 0.8),
            ("I/3", 0.2),
            ("ii7/4", 0.8),
        ],
    ),
    (
        "I/3",
        &[
            ("IV", 4.0),
            ("ii7", 2.5),
            ("V7", 0.6),
            ("vi7", 0.5),
            ("ii7/4", 1.0),
        ],
    ),
    // The bass rises by a semitone to the tonic, and by a tone to the dominant.
    ("V7/7", &[("I", 5.0)]),
    ("ii7/4", &[("V7", 6.0)]),
];

const MINOR: &[Row] = &[
    (
        "i",
        &[
            ("iiø7", 3.0),
            ("iv7", 3.0),
            ("V7", 1.2),
            ("bVI", 2.5),
            ("bIII", 0.8),
            ("bVII", 0.9),
            ("i/b3", 0.6),
            ("V7/7", 0.4),
            ("iiø7/4", 0.5),
        ],
    ),
    ("iiø7", &[("V7", 9.0), ("V7/7", 0.5)]),
    (
        "bIII",
        &[("bVI", 3.0), ("iv7", 2.0), ("iiø7", 1.2), ("V7", 0.6)],
    ),
    (
        "iv7",
        &[
            ("V7", 3.0),
            ("i", 1.5),
            ("iiø7", 1.5),
            ("bVII", 0.8),
            ("i/b3", 0.6),
        ],
    ),
    ("V7", &[("i", 8.0), ("bVI", 1.0), ("i/b3", 0.7)]),
    (
        "bVI",
        &[
            ("iiø7", 4.0),
            ("iv7", 1.5),
            ("V7", 1.5),
            ("bIII", 0.6),
            ("bVII", 1.0),
            ("iiø7/4", 0.8),
        ],
    ),
    ("bVII", &[("bIII", 2.0), ("i", 1.0), ("bVI", 1.0)]),
    (
        "i/b3",
        &[("iv7", 4.0), ("iiø7", 2.5), ("bVI", 0.8), ("iiø7/4", 0.8)],
    ),
    ("V7/7", &[("i", 5.0)]),
    ("iiø7/4", &[("V7", 6.0)]),
];

impl Vocabulary {
    /// The vocabulary of a mode, made once.
    pub(super) fn of(mode: Mode) -> &'static Self {
        static MAJOR_KEYS: OnceLock<Vocabulary> = OnceLock::new();
        static MINOR_KEYS: OnceLock<Vocabulary> = OnceLock::new();
        match mode {
            Mode::Major => MAJOR_KEYS.get_or_init(|| Self::new(mode, MAJOR)),
            Mode::Minor => MINOR_KEYS.get_or_init(|| Self::new(mode, MINOR)),
        }
    }

    fn new(mode: Mode, rows: &[Row]) -> Self {
        let mut vocabulary = Self {
            mode,
            fillers: Vec::with_capacity(rows.len()),
            weights: Vec::with_capacity(rows.len()),
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
        if from.is_like(to) {
            return 0.0;
        }
        match (from.filler, to.filler) {
            (Some(from), Some(to)) => self.weights[from][to],
            (None, _) => motion::leave(from, to) * if to.inverted { 0.3 } else { 1.0 },
            (Some(_), None) => motion::approach(from, to),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn falling_fifths_weigh_most() {
        for mode in [Mode::Major, Mode::Minor] {
            let vocabulary = Vocabulary::of(mode);
            let dominant = vocabulary.dominant();
            let home = vocabulary.weight(&dominant, &vocabulary.tonic());
            for filler in &vocabulary.fillers[1..] {
                assert!(vocabulary.weight(&dominant, filler) < home);
            }
        }
    }

    #[test]
    fn every_filler_leads_somewhere_and_is_reached() {
        for mode in [Mode::Major, Mode::Minor] {
            let vocabulary = Vocabulary::of(mode);
            let all = &vocabulary.fillers;
            for one in all {
                assert!(all.iter().any(|other| vocabulary.weight(one, other) > 0.0));
                assert!(all.iter().any(|other| vocabulary.weight(other, one) > 0.0));
                assert!(vocabulary.weight(one, one).abs() < f64::EPSILON);
            }
        }
    }
}

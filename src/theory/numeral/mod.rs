//! Numerals: how a chord is written relative to a key, readable without one.

mod error;
mod parse;
#[cfg(test)]
mod tests;

use std::fmt;

pub use error::{Expected, NumeralError};
pub use parse::BareSix;
pub(crate) use parse::{LONGEST, read_roman};

use super::degree::Degree;
use super::notation::Notation;
use super::pitch::IntervalClass;
use super::quality::{Quality, Tension};

/// What stands before any slash of a numeral.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Head {
    /// A Roman numeral on a degree, counted from the major scale.
    Roman {
        /// The degree of the root, of the target's key if there is a target.
        root: Degree,
        /// What stands above the root.
        quality: Quality,
    },
    /// The tritone substitute of a dominant: a dominant seventh a semitone above its target.
    Substitute {
        /// What stands above the root.
        quality: Quality,
    },
    /// An augmented-sixth chord, the flat sixth degree in its bass.
    AugmentedSixth(AugmentedSixth),
    /// The Neapolitan sixth: the major triad on the flat second, its third in the bass.
    Neapolitan,
}

/// The augmented sixth chords, by what stands over bass, third and augmented sixth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AugmentedSixth {
    /// Nothing more: `It+6`.
    Italian,
    /// The second degree, a perhaps diminished fifth of the theoretical root: `Fr+6`.
    French,
    /// The minor third of the key: `Ger+6`.
    German,
    /// The German one as it is spelled before a major tonic over 5: its fifth is a raised
    /// second degree, which goes up to 3.
    Swiss,
}

impl AugmentedSixth {
    /// The chord's notes as degrees, the bass first.
    #[must_use]
    pub fn degrees(self) -> Vec<Degree> {
        let flat_six = Degree::new(6, -1);
        let sharp_four = Degree::new(4, 1);
        match self {
            Self::Italian => vec![flat_six, Degree::TONIC, sharp_four],
            Self::French => vec![flat_six, Degree::TONIC, Degree::new(2, 0), sharp_four],
            Self::German => vec![flat_six, Degree::TONIC, Degree::new(3, -1), sharp_four],
            Self::Swiss => vec![flat_six, Degree::TONIC, Degree::new(2, 1), sharp_four],
        }
    }
}

/// A numeral, such as `V7/ii`, `♯iv°7`, `iv`, `I/5` or `Iadd6`.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Numeral {
    /// What kind of chord it is, with its root.
    pub head: Head,
    /// The chord that the head is applied to: `ii` in `V7/ii`. Targets nest.
    pub target: Option<Box<Numeral>>,
    /// The degree in the bass, counted in the key that the whole numeral is written in.
    pub bass: Option<Degree>,
}

/// How many targets may follow each other: `V/V/V/V/V/V` has five.
pub const DEEPEST_TARGET: usize = 6;

impl Numeral {
    /// A Roman numeral in root position.
    #[must_use]
    pub fn roman(root: Degree, quality: Quality) -> Self {
        Self {
            head: Head::Roman { root, quality },
            target: None,
            bass: None,
        }
    }

    /// The degree of the key that the target stands on; the tonic if there is none.
    #[must_use]
    pub fn local_tonic(&self) -> Degree {
        self.target
            .as_ref()
            .map_or(Degree::TONIC, |target| target.root())
    }

    /// The degree of the key that the chord's root is. An augmented sixth is taken from
    /// its bass, as the dominant seventh that sounds like it.
    #[must_use]
    pub fn root(&self) -> Degree {
        let within = match self.head {
            Head::Roman { root, .. } => root,
            Head::Substitute { .. } | Head::Neapolitan => Degree::at(IntervalClass::MINOR_SECOND),
            Head::AugmentedSixth(_) => Degree::new(6, -1),
        };
        self.local_tonic().up(within.interval())
    }

    /// The chord's notes as degrees of the key, root first.
    #[must_use]
    pub fn degrees(&self) -> Vec<Degree> {
        if let Head::AugmentedSixth(kind) = self.head {
            let tonic = self.local_tonic();
            return kind
                .degrees()
                .into_iter()
                .map(|d| tonic.up(d.interval()))
                .collect();
        }
        let root = self.root();
        self.quality()
            .members()
            .into_iter()
            .map(|(_, interval)| root.up(interval))
            .collect()
    }

    /// The quality by which the chord sounds; an augmented sixth by the dominant
    /// seventh that shares its notes.
    #[must_use]
    pub fn quality(&self) -> Quality {
        match self.head {
            Head::Roman { quality, .. } | Head::Substitute { quality } => quality,
            Head::AugmentedSixth(_) => Quality::DOMINANT_SEVENTH,
            Head::Neapolitan => Quality::MAJOR,
        }
    }

    /// The degree that sounds in the bass.
    #[must_use]
    pub fn sounding_bass(&self) -> Degree {
        self.bass.unwrap_or_else(|| match self.head {
            Head::Neapolitan => self.root().up(IntervalClass::MAJOR_THIRD),
            Head::Roman { .. } | Head::Substitute { .. } | Head::AugmentedSixth(_) => self.root(),
        })
    }

    /// The same chord with its root (or its own bass) at the bottom.
    #[must_use]
    pub fn without_bass(&self) -> Self {
        Self {
            bass: None,
            ..self.clone()
        }
    }

    /// The same chord less its tensions.
    #[must_use]
    pub fn without_tensions(&self) -> Self {
        let head = match self.head {
            Head::Roman { root, quality } => Head::Roman {
                root,
                quality: quality.plain(),
            },
            Head::Substitute { quality } => Head::Substitute {
                quality: quality.plain(),
            },
            Head::AugmentedSixth(_) | Head::Neapolitan => self.head,
        };
        Self {
            head,
            ..self.clone()
        }
    }

    /// Whether the chord carries a tension.
    #[must_use]
    pub fn has_tension(&self, tension: Tension) -> bool {
        self.quality().tensions.has(tension)
    }

    /// The numeral in a notation.
    #[must_use]
    pub fn written(&self, notation: Notation) -> String {
        let mut text = match self.head {
            Head::Roman { root, quality } => {
                let upper = ROMAN[usize::from(root.number()) - 1];
                let roman = if quality.is_lower_case() {
                    upper.to_lowercase()
                } else {
                    upper.to_owned()
                };
                notation.accidentals(root.alteration()) + &roman + &quality.numeral_suffix(notation)
            }
            Head::Substitute { quality } => format!("subV{}", quality.numeral_suffix(notation)),
            Head::AugmentedSixth(AugmentedSixth::Italian) => "It6".to_owned(),
            Head::AugmentedSixth(AugmentedSixth::French) => "Fr6".to_owned(),
            Head::AugmentedSixth(AugmentedSixth::German) => "Ger6".to_owned(),
            Head::AugmentedSixth(AugmentedSixth::Swiss) => "Sw6".to_owned(),
            Head::Neapolitan => "N6".to_owned(),
        };
        if let Some(target) = &self.target {
            text += "/";
            text += &target.written(notation);
        }
        if let Some(bass) = self.bass {
            text += "/";
            text += &bass.written(notation);
        }
        text
    }
}

/// The numerals of the seven degrees.
const ROMAN: [&str; 7] = ["I", "II", "III", "IV", "V", "VI", "VII"];

impl fmt::Display for Numeral {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written(Notation::Text))
    }
}

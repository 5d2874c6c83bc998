//! The families that devices belong to.

use std::fmt;
use std::str::FromStr;

use crate::theory::NameError;

/// A group of devices that work alike and are confused with each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Family {
    /// Cadences and the diatonic progressions that lead to them.
    Cadential,
    /// Dominants and leading-tone chords of chords other than the tonic.
    Applied,
    /// Tritone substitutes and augmented sixths.
    Substitute,
    /// Chords borrowed from the parallel mode.
    Mixture,
    /// Diminished sevenths that pass or embellish.
    Diminished,
    /// What belongs to minor keys.
    Minor,
    /// Openings, turn-backs, pedals and modulations.
    Form,
}

impl Family {
    /// All families, in the order of the catalogue.
    pub const ALL: [Self; 7] = [
        Self::Cadential,
        Self::Applied,
        Self::Substitute,
        Self::Mixture,
        Self::Diminished,
        Self::Minor,
        Self::Form,
    ];

    /// The name in files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Cadential => "cadential",
            Self::Applied => "applied",
            Self::Substitute => "substitute",
            Self::Mixture => "mixture",
            Self::Diminished => "diminished",
            Self::Minor => "minor",
            Self::Form => "form",
        }
    }
}

impl fmt::Display for Family {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for Family {
    type Err = NameError;

    fn from_str(text: &str) -> Result<Self, NameError> {
        Self::ALL
            .into_iter()
            .find(|family| family.name() == text)
            .ok_or_else(|| NameError::none_of(text, "a family", Self::ALL.map(Self::name)))
    }
}

//! Conditions on a line that no pattern can say, each a function from a line to the
//! ranges of chords that fulfil it.

mod chromatic_descending_bass;
mod diatonic_fifths_cycle;
mod dominant_chain;
mod falls;
mod form_end_dominant;
mod off_tonic_opening;
mod pedal_point;
mod pivot_modulation;
mod run;
mod scale;
mod sequential_modulation;
mod substitute_chain;
mod two_five_chain;

use std::fmt;
use std::ops::Range;
use std::str::FromStr;

use crate::theory::{Mode, NameError, Numeral};

/// A rule by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rule {
    /// The bass sinks by semitones from the tonic to the dominant.
    ChromaticDescendingBass,
    /// Four or more chords of the scale, each a fifth below the last.
    DiatonicFifthsCycle,
    /// Three or more dominant sevenths, each a fifth below the last.
    DominantChain,
    /// The last chord is the dominant of the first.
    FormEndDominant,
    /// The first chord stands on another root than the tonic, and the tonic comes later.
    OffTonicOpening,
    /// The tonic or the dominant is held in the bass under three harmonies or more.
    PedalPoint,
    /// A chord of two keys leads to the other one, which is confirmed.
    PivotModulation,
    /// A cadence is restated at another pitch.
    SequentialModulation,
    /// Three or more dominant sevenths, each a semitone below the last.
    SubstituteChain,
    /// Two or more ii-Vs, each beginning where the last one aimed.
    TwoFiveChain,
}

impl Rule {
    /// All rules.
    pub const ALL: [Self; 10] = [
        Self::ChromaticDescendingBass,
        Self::DiatonicFifthsCycle,
        Self::DominantChain,
        Self::FormEndDominant,
        Self::OffTonicOpening,
        Self::PedalPoint,
        Self::PivotModulation,
        Self::SequentialModulation,
        Self::SubstituteChain,
        Self::TwoFiveChain,
    ];

    /// The name in files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::ChromaticDescendingBass => "chromatic-descending-bass",
            Self::DiatonicFifthsCycle => "diatonic-fifths-cycle",
            Self::DominantChain => "dominant-chain",
            Self::FormEndDominant => "form-end-dominant",
            Self::OffTonicOpening => "off-tonic-opening",
            Self::PedalPoint => "pedal-point",
            Self::PivotModulation => "pivot-modulation",
            Self::SequentialModulation => "sequential-modulation",
            Self::SubstituteChain => "substitute-chain",
            Self::TwoFiveChain => "two-five-chain",
        }
    }

    /// The chords of `line` that fulfil the rule, as ranges of slots.
    #[must_use]
    pub fn find(self, line: &[&Numeral], mode: Mode) -> Vec<Range<usize>> {
        match self {
            Self::ChromaticDescendingBass => chromatic_descending_bass::find(line),
            Self::DiatonicFifthsCycle => diatonic_fifths_cycle::find(line, mode),
            Self::DominantChain => dominant_chain::find(line),
            Self::FormEndDominant => form_end_dominant::find(line),
            Self::OffTonicOpening => off_tonic_opening::find(line),
            Self::PedalPoint => pedal_point::find(line),
            Self::PivotModulation => pivot_modulation::find(line, mode),
            Self::SequentialModulation => sequential_modulation::find(line),
            Self::SubstituteChain => substitute_chain::find(line),
            Self::TwoFiveChain => two_five_chain::find(line),
        }
    }
}

impl fmt::Display for Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for Rule {
    type Err = NameError;

    fn from_str(text: &str) -> Result<Self, NameError> {
        Self::ALL
            .into_iter()
            .find(|rule| rule.name() == text)
            .ok_or_else(|| NameError::none_of(text, "a rule", Self::ALL.map(Self::name)))
    }
}

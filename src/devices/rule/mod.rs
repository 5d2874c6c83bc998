//! Conditions on a line that no pattern can say, each a function from a line to the
//! ranges of chords that fulfil it.

mod dominant_chain;
mod form_end_dominant;
mod off_tonic_opening;
mod run;

use std::fmt;
use std::ops::Range;
use std::str::FromStr;

use crate::theory::{Mode, Numeral};

/// A rule by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rule {
    /// Three or more dominant sevenths, each a fifth below the last.
    DominantChain,
    /// The last chord is the dominant of the first.
    FormEndDominant,
    /// The first chord stands on another root than the tonic, and the tonic comes later.
    OffTonicOpening,
}

impl Rule {
    pub const ALL: [Self; 3] = [
        Self::DominantChain,
        Self::FormEndDominant,
        Self::OffTonicOpening,
    ];

    /// The name in files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::DominantChain => "dominant-chain",
            Self::FormEndDominant => "form-end-dominant",
            Self::OffTonicOpening => "off-tonic-opening",
        }
    }

    /// The chords of `line` that fulfil the rule, as ranges of slots.
    #[must_use]
    pub fn find(self, line: &[&Numeral], _mode: Mode) -> Vec<Range<usize>> {
        match self {
            Self::DominantChain => dominant_chain::find(line),
            Self::FormEndDominant => form_end_dominant::find(line),
            Self::OffTonicOpening => off_tonic_opening::find(line),
        }
    }
}

impl fmt::Display for Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// What stood where a rule was expected.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotARule(pub String);

impl fmt::Display for NotARule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let names = Rule::ALL.map(Rule::name).join("`, `");
        write!(f, "`{}` is not a rule; expected one of `{names}`", self.0)
    }
}

impl std::error::Error for NotARule {}

impl FromStr for Rule {
    type Err = NotARule;

    fn from_str(text: &str) -> Result<Self, NotARule> {
        Self::ALL
            .into_iter()
            .find(|rule| rule.name() == text)
            .ok_or_else(|| NotARule(text.to_owned()))
    }
}

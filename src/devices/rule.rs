//! Conditions on a line that no pattern can say, each a function from a line to the
//! ranges of chords that fulfil it.

use std::fmt;
use std::ops::Range;
use std::str::FromStr;

use super::shape::{Kind, Shape};
use crate::theory::{Degree, IntervalClass, Mode, Numeral};

/// A rule by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rule {
    /// The first chord stands on another root than the tonic, and the tonic comes later.
    OffTonicOpening,
    /// The last chord is the dominant of the first.
    FormEndDominant,
}

impl Rule {
    pub const ALL: [Self; 2] = [Self::OffTonicOpening, Self::FormEndDominant];

    /// The name in files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::OffTonicOpening => "off-tonic-opening",
            Self::FormEndDominant => "form-end-dominant",
        }
    }

    /// The chords of `line` that fulfil the rule, as ranges of slots.
    #[must_use]
    pub fn find(self, line: &[&Numeral], _mode: Mode) -> Vec<Range<usize>> {
        let found = match self {
            Self::OffTonicOpening => off_tonic_opening(line),
            Self::FormEndDominant => form_end_dominant(line),
        };
        found.into_iter().collect()
    }
}

fn is_tonic(chord: &Numeral) -> bool {
    let shape = Shape::of(chord);
    shape.root == Degree::TONIC && matches!(shape.kind, Kind::Major | Kind::Minor)
}

fn off_tonic_opening(line: &[&Numeral]) -> Option<Range<usize>> {
    let (first, rest) = line.split_first()?;
    (first.root() != Degree::TONIC && rest.iter().any(|chord| is_tonic(chord))).then_some(0..1)
}

fn form_end_dominant(line: &[&Numeral]) -> Option<Range<usize>> {
    let (first, rest) = line.split_first()?;
    let last = rest.last()?;
    let dominant = Shape::acting(last).kind == Kind::Dominant
        && last.root() == first.root().up(IntervalClass::PERFECT_FIFTH);
    dominant.then_some(line.len() - 1..line.len())
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

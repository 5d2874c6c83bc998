//! What can be unfair about a thing that is asked, as seen by somebody who has nothing but
//! the chord symbols.

use serde::Serialize;

use crate::devices::DeviceId;
use crate::harmony::Progression;
use crate::theory::Numeral;

/// What is unfair about a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unfair {
    /// Nothing is asked at all.
    AsksNothing,
    /// The name by which the chord is asked, or one that is accepted, is marked wrong.
    AcceptsNothing,
    /// A name is taken for the same function although it says another one here.
    TwoFunctions,
    /// No answer on offer is right.
    NoRightAnswer,
    /// Several answers on offer are right.
    SeveralRight,
    /// Two answers on offer are the same function here, or look alike.
    Twins,
    /// A wrong answer on offer is as well supported as the right one.
    AsWellSupported,
    /// The answer that counts as right is not what the symbols say.
    Untrue,
}

impl Unfair {
    /// The fault in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::AsksNothing => "nothing is asked",
            Self::AcceptsNothing => "an accepted name is marked wrong",
            Self::TwoFunctions => "two functions are accepted as one",
            Self::NoRightAnswer => "no answer on offer is right",
            Self::SeveralRight => "several answers on offer are right",
            Self::Twins => "two answers on offer are the same",
            Self::AsWellSupported => "a wrong answer is as well supported",
            Self::Untrue => "the right answer is not what the symbols say",
        }
    }
}

/// A reader who has the chord symbols of the question's line and its key, and nothing else.
pub trait Blind {
    /// What the symbol of a slot is read as.
    fn numeral(&self, slot: usize) -> &Numeral;

    /// Whether the symbols hold a device at one of these slots.
    fn holds_at(&self, device: &DeviceId, slots: &[usize]) -> bool;

    /// Whether the symbols of a progression hold a device anywhere.
    fn finds(&self, device: &DeviceId, progression: &Progression) -> bool;
}

/// Answers that look alike.
pub(super) fn twins(labels: &[String]) -> Vec<(Unfair, String)> {
    let is_twin = |at: &usize| labels[..*at].contains(&labels[*at]);
    (0..labels.len())
        .filter(is_twin)
        .map(|at| (Unfair::Twins, labels[at].clone()))
        .collect()
}

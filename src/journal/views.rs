//! The parts of an entry that the scorer and the tables look at, borrowed from the line: in
//! a long journal most of what stands in a line would be read for nothing.

use std::borrow::Cow;

use serde::Deserialize;
use smallvec::SmallVec;

use super::{Difficulty, Entry, KeySetting};

/// Text that stays in the line it was read from unless it held escapes.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(transparent)]
pub struct Text<'a>(#[serde(borrow)] Cow<'a, str>);

impl Text<'_> {
    /// The text, escapes resolved.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl<'a> From<&'a str> for Text<'a> {
    fn from(text: &'a str) -> Self {
        Self(Cow::Borrowed(text))
    }
}

/// As many as most entries hold, in place: a long journal would otherwise be mostly
/// allocations.
pub type Few<T> = SmallVec<[T; 2]>;

/// As many as most questions offer, in place.
pub type Offers<T> = SmallVec<[T; 6]>;

/// What the scorer looks at in an entry. The fields mean what they mean in [`Entry`].
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct ScoredEntry<'a> {
    /// The format of the line.
    pub version: u32,
    /// When the answer came, in milliseconds since 1970 (UTC).
    pub time: u64,
    /// Who answered.
    #[serde(borrow)]
    pub learner: Text<'a>,
    /// How the key was made known.
    pub key_setting: KeySetting,
    /// How many answers were on offer; 0 when it was typed.
    pub answers: u32,
    /// How hard the exemplar was to hear.
    pub difficulty: Difficulty,
    /// How many devices were explained before the answer.
    #[serde(default)]
    pub explained: u32,
    /// The answer to each asked chord.
    #[serde(borrow)]
    pub slots: Few<ScoredSlot<'a>>,
}

/// What the scorer looks at in one asked chord.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
pub struct ScoredSlot<'a> {
    /// The devices that the chord belongs to.
    #[serde(borrow)]
    pub devices: Few<Text<'a>>,
    /// The numeral that sounded.
    #[serde(borrow, default)]
    pub truth: Text<'a>,
    /// What was answered.
    #[serde(borrow, default)]
    pub answer: Text<'a>,
    /// What the answer earned, 0 to 1.
    pub credit: f64,
    /// The device that was named instead, if it is known.
    #[serde(borrow, default)]
    pub heard_as: Option<Text<'a>>,
    /// The answers on offer, the right one first, if they are known.
    #[serde(borrow, default)]
    pub offers: Offers<Text<'a>>,
}

/// The part of an entry that tables and pictures are made of. The fields mean what they
/// mean in [`Entry`].
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct ReportedEntry<'a> {
    /// The format of the line.
    pub version: u32,
    /// When the answer came, in milliseconds since 1970 (UTC).
    pub time: u64,
    /// Who answered.
    #[serde(borrow)]
    pub learner: Text<'a>,
    /// The kind of question, by its id.
    #[serde(borrow)]
    pub kind: Text<'a>,
    /// The answer to each asked chord.
    #[serde(borrow)]
    pub slots: Few<ReportedSlot<'a>>,
}

/// What tables and pictures are made of in one asked chord.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct ReportedSlot<'a> {
    /// The devices that the chord belongs to.
    #[serde(borrow)]
    pub devices: Few<Text<'a>>,
    /// The numeral that sounded.
    #[serde(borrow)]
    pub truth: Text<'a>,
    /// What was answered.
    #[serde(borrow)]
    pub answer: Text<'a>,
    /// What the answer earned, 0 to 1.
    pub credit: f64,
}

impl Entry {
    /// What the scorer looks at.
    #[must_use]
    pub fn scored(&self) -> ScoredEntry<'_> {
        let slots = self
            .slots
            .iter()
            .map(|slot| ScoredSlot {
                devices: slot.devices.iter().map(|id| id.as_str().into()).collect(),
                truth: slot.truth.as_str().into(),
                answer: slot.answer.as_str().into(),
                credit: slot.credit,
                heard_as: slot.heard_as.as_ref().map(|id| id.as_str().into()),
                offers: slot.offers.iter().map(|one| one.as_str().into()).collect(),
            })
            .collect();
        ScoredEntry {
            version: self.version,
            time: self.time,
            learner: self.learner.as_str().into(),
            key_setting: self.key_setting,
            answers: self.answers,
            difficulty: self.difficulty,
            explained: self.explained,
            slots,
        }
    }
}

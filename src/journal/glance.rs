//! The parts of an entry that the scorer and the tables look at, borrowed from the line: in
//! a long journal most of what stands in a line would be read for nothing.

use std::borrow::Cow;

use serde::Deserialize;
use smallvec::SmallVec;

use super::{Difficulty, Entry, KeySetting};

/// Text that stays in the line it was read from unless it held escapes.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(transparent)]
pub struct Text<'a>(#[serde(borrow)] Cow<'a, str>);

impl Text<'_> {
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

/// An entry at a glance. The fields mean what they mean in [`Entry`].
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Glance<'a> {
    pub version: u32,
    pub time: u64,
    #[serde(borrow)]
    pub learner: Text<'a>,
    pub key_setting: KeySetting,
    pub answers: u32,
    pub difficulty: Difficulty,
    #[serde(default)]
    pub explained: u32,
    #[serde(borrow)]
    pub slots: Few<GlanceSlot<'a>>,
}

/// One asked chord at a glance.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct GlanceSlot<'a> {
    #[serde(borrow)]
    pub devices: Few<Text<'a>>,
    pub credit: f64,
    #[serde(borrow, default)]
    pub heard_as: Option<Text<'a>>,
}

/// The part of an entry that tables and pictures are made of. The fields mean what they
/// mean in [`Entry`].
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Gist<'a> {
    pub version: u32,
    pub time: u64,
    #[serde(borrow)]
    pub learner: Text<'a>,
    #[serde(borrow)]
    pub kind: Text<'a>,
    #[serde(borrow)]
    pub slots: Few<GistSlot<'a>>,
}

/// The answer to one asked chord, in its gist.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct GistSlot<'a> {
    #[serde(borrow)]
    pub devices: Few<Text<'a>>,
    #[serde(borrow)]
    pub truth: Text<'a>,
    #[serde(borrow)]
    pub answer: Text<'a>,
    pub credit: f64,
}

impl Entry {
    /// What the scorer looks at.
    #[must_use]
    pub fn glance(&self) -> Glance<'_> {
        let slots = self
            .slots
            .iter()
            .map(|slot| GlanceSlot {
                devices: slot.devices.iter().map(|id| id.as_str().into()).collect(),
                credit: slot.credit,
                heard_as: slot.heard_as.as_ref().map(|id| id.as_str().into()),
            })
            .collect();
        Glance {
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

//! An entry in the numbers of the catalogue: what many readers can prepare at once before
//! one scorer takes it in.

use std::collections::HashMap;
use std::sync::Arc;

use foldhash::fast::FixedState;

use super::model::Model;
use crate::journal::{Few, ScoredEntry, Text};

/// An entry, ready to be folded in.
#[derive(Clone, Debug, PartialEq)]
pub struct Digest {
    pub(super) time: u64,
    /// How many answers were left to choose from; 0 when they were typed.
    pub(super) answers: u32,
    /// How much easier than a middling exemplar, in logits.
    pub(super) ease: f64,
    pub(super) slots: Few<SlotDigest>,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) struct SlotDigest {
    /// The devices that the catalogue holds, by number.
    pub(super) devices: Few<usize>,
    pub(super) credit: f64,
    pub(super) heard_as: Option<usize>,
}

impl SlotDigest {
    /// Several devices answer for a slot together, each for its part.
    pub(super) fn share(&self) -> f64 {
        #[allow(clippy::cast_precision_loss)]
        let count = self.devices.len().max(1) as f64;
        1.0 / count
    }
}

/// The numbers of the devices by their ids: ours, so that nobody can choose them to collide.
pub(super) type Numbers = HashMap<String, usize, FixedState>;

/// Turns entries into digests; cheap to clone, for readers on other threads.
#[derive(Clone, Debug, PartialEq)]
pub struct Digester {
    numbers: Arc<Numbers>,
    model: Model,
}

impl Digester {
    pub(super) fn new(numbers: Numbers, model: Model) -> Self {
        Self {
            numbers: Arc::new(numbers),
            model,
        }
    }

    /// What the scorer needs of an entry.
    #[must_use]
    pub fn digest(&self, entry: &ScoredEntry<'_>) -> Digest {
        let slots = entry.slots.iter().map(|slot| SlotDigest {
            devices: slot.devices.iter().filter_map(|id| self.find(id)).collect(),
            credit: slot.credit.clamp(0.0, 1.0),
            heard_as: slot.heard_as.as_ref().and_then(|id| self.find(id)),
        });
        Digest {
            time: entry.time,
            answers: left(entry.answers, entry.explained),
            ease: self.model.ease(entry.difficulty, entry.key_setting),
            slots: slots.collect(),
        }
    }

    fn find(&self, id: &Text<'_>) -> Option<usize> {
        self.number(id.as_str())
    }

    pub(super) fn number(&self, id: &str) -> Option<usize> {
        self.numbers.get(id).copied()
    }
}

/// An explanation names the asked device among others, and no other answer is likely then.
fn left(answers: u32, explained: u32) -> u32 {
    match (answers, explained) {
        (answers, 0) => answers,
        (0, explained) => explained,
        (answers, explained) => answers.min(explained),
    }
}

//! An entry in the numbers of the catalogue: what many readers can prepare at once before
//! one scorer takes it in.

use std::collections::HashMap;
use std::hash::BuildHasher;
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
    /// Whether the device was explained before.
    pub(super) is_explained: bool,
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
    /// The answers on offer, by number, the right one first; of a typed answer the right
    /// one alone. Empty where they are not known.
    pub(super) offers: Offers,
    /// The number of the answer that was given, and its text where the offers are known.
    pub(super) said: u64,
    pub(super) answer: Box<str>,
    pub(super) is_typed: bool,
}

/// Answers by number.
pub(super) type Offers = crate::journal::Offers<u64>;

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
        let slots = entry.slots.iter().map(|slot| {
            let is_typed = entry.answers == 0;
            let credit = slot.credit.clamp(0.0, 1.0);
            let right = if credit < 1.0 {
                &slot.truth
            } else {
                &slot.answer
            };
            let offers: Offers = if is_typed && !right.as_str().is_empty() {
                std::iter::once(answer_number(right)).collect()
            } else {
                slot.offers.iter().map(answer_number).collect()
            };
            let answer = if offers.is_empty() {
                ""
            } else {
                slot.answer.as_str()
            };
            SlotDigest {
                devices: slot.devices.iter().filter_map(|id| self.find(id)).collect(),
                credit,
                heard_as: slot.heard_as.as_ref().and_then(|id| self.find(id)),
                said: answer_number(&slot.answer),
                answer: answer.into(),
                offers,
                is_typed,
            }
        });
        Digest {
            time: entry.time,
            is_explained: entry.explained > 0,
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

/// A number for an answer. That two answers share one is so unlikely that it may happen.
fn answer_number(answer: &Text<'_>) -> u64 {
    FixedState::default().hash_one(answer.as_str())
}

/// An explanation names the asked device among others, and no other answer is likely then.
fn left(answers: u32, explained: u32) -> u32 {
    match (answers, explained) {
        (answers, 0) => answers,
        (0, explained) => explained,
        (answers, explained) => answers.min(explained),
    }
}

//! One question under examination, and one thing found in it.

use serde::{Serialize, Serializer};

use crate::devices::{Catalogue, DeviceId};
use crate::harmony::Analysis;
use crate::quiz::{Drill, Question};
use crate::theory::Notation;

/// A question with where it comes from.
#[derive(Clone, Copy)]
pub(super) struct Subject<'a> {
    pub(super) catalogue: &'a Catalogue,
    pub(super) drill: &'a Drill,
    /// The drill's place in the plan.
    pub(super) place: usize,
    /// The question's number in its drill, from 0.
    pub(super) index: u32,
    pub(super) question: &'a Question,
}

impl Subject<'_> {
    /// The slot that the wanted device is asked at.
    pub(super) fn focus(&self) -> usize {
        let progression = &self.question.progression;
        progression.marked(&self.question.wanted).unwrap_or(0)
    }

    pub(super) fn case(&self, slot: Option<usize>, what: String) -> Case {
        let question = self.question;
        let key = question.key().written(Notation::Text);
        let line = question.progression.line.written(Notation::Text);
        Case {
            exercise: self.drill.exercise.clone(),
            index: self.index,
            device: question.wanted.clone(),
            line: format!("{key}: {line}"),
            slot,
            what,
        }
    }
}

/// What was read of a question's line from its printed symbols alone: the analysis and,
/// for each slot, its chord there. Neighbours whose symbols are alike are one chord.
pub(super) struct Read {
    pub(super) analysis: Analysis,
    pub(super) chord_of: Vec<usize>,
}

/// Something found in one question. `plagal question EXERCISE --seed N --count INDEX+1`
/// shows it again.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Case {
    pub exercise: String,
    /// The question's number in its drill, from 0.
    pub index: u32,
    pub device: DeviceId,
    /// Key and line.
    pub line: String,
    /// The slot concerned, from 0, if one is.
    pub slot: Option<usize>,
    pub what: String,
}

/// The most cases that are kept; all are counted.
const KEPT: usize = 1000;

/// Cases, the first of them in full.
#[derive(Clone, Debug, Default)]
pub struct Cases {
    kept: Vec<Case>,
    count: u32,
}

impl Cases {
    pub(super) fn add(&mut self, case: Case) {
        self.count += 1;
        if self.kept.len() < KEPT {
            self.kept.push(case);
        }
    }

    /// How many there were.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.count
    }

    /// Those that were kept, the first of all.
    #[must_use]
    pub fn kept(&self) -> &[Case] {
        &self.kept
    }
}

impl Serialize for Cases {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.kept.serialize(serializer)
    }
}

/// A share of a whole, 1 where there is nothing to share.
pub(super) fn share(part: u32, whole: u32) -> f64 {
    if whole == 0 {
        1.0
    } else {
        f64::from(part) / f64::from(whole)
    }
}

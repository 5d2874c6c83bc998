//! Whether what is accepted and what is on offer is fair.

use std::collections::BTreeMap;

use serde::Serialize;

use super::case::{Cases, Read, Subject};
use super::truth;
use crate::devices::DeviceId;
use crate::harmony::Progression;
use crate::quiz::{Blind, Unfair};
use crate::theory::{Notation, Numeral};

/// What was unfair.
#[derive(Clone, Debug, Serialize)]
pub struct Fairness {
    pub faults: u32,
    /// How many of each sort.
    pub sorts: BTreeMap<Unfair, u32>,
    /// Things that were asked, and answers on offer for them.
    pub asks: u32,
    pub offers: u32,
    /// The first of the faults.
    pub cases: Cases,
}

impl Fairness {
    pub(super) fn fault(&self) -> Option<String> {
        (self.faults > 0).then(|| format!("{} things asked are unfair", self.faults))
    }
}

#[derive(Default)]
pub(super) struct FairnessExaminer {
    sorts: BTreeMap<Unfair, u32>,
    asks: u32,
    offers: u32,
    cases: Cases,
}

impl FairnessExaminer {
    pub(super) fn examine(&mut self, subject: &Subject<'_>, read: &Read) {
        let question = subject.question;
        if question.asks.is_empty() {
            self.add(subject, None, Unfair::AsksNothing, "");
        }
        for ask in &question.asks {
            self.asks += 1;
            let offers = ask.labels(Notation::Text).len();
            self.offers += u32::try_from(offers).expect("offers are few");
            for (unfair, detail) in ask.unfair(question.material(), &Symbols { subject, read }) {
                self.add(subject, ask.slot(), unfair, &detail);
            }
        }
    }

    fn add(&mut self, subject: &Subject<'_>, slot: Option<usize>, unfair: Unfair, detail: &str) {
        *self.sorts.entry(unfair).or_default() += 1;
        let what = format!("{}: {detail}", unfair.words());
        self.cases.add(subject.case(slot, what));
    }

    pub(super) fn finish(self) -> Fairness {
        Fairness {
            faults: self.cases.count(),
            sorts: self.sorts,
            asks: self.asks,
            offers: self.offers,
            cases: self.cases,
        }
    }
}

/// The reader of the printed symbols as one who does not know the question.
struct Symbols<'a> {
    subject: &'a Subject<'a>,
    read: &'a Read,
}

impl Blind for Symbols<'_> {
    fn numeral(&self, slot: usize) -> &Numeral {
        &self.read.analysis.readings[self.read.chord_of[slot]][0].numeral
    }

    fn holds_at(&self, device: &DeviceId, slots: &[usize]) -> bool {
        let found = self.read.analysis.devices.iter();
        let mut found = found.filter(|found| found.device == *device);
        found.any(|found| {
            let chords = slots.iter().map(|slot| self.read.chord_of[*slot]);
            chords.into_iter().any(|chord| found.own.contains(&chord))
        })
    }

    fn finds(&self, device: &DeviceId, progression: &Progression) -> bool {
        let read = truth::read(progression, self.subject);
        let mut devices = read.analysis.devices.iter();
        devices.any(|found| found.device == *device)
    }
}

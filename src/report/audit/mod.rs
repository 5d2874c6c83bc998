//! Makes many questions and looks for faults in them: untruth, unfairness, ways to guess
//! without listening, names that tell, monotony, bad voice leading, devices that never come.
//!
//! The same plan gives the same audit on every machine. Of each question only counts and
//! a few bytes are kept, so that a long audit fits in memory.

mod case;
mod classifier;
mod coverage;
mod fairness;
mod features;
mod leaks;
mod offers;
mod page;
mod plan;
mod truth;
mod variety;
mod voice_leading;

pub use plan::Plan;

use serde::Serialize;

use case::{Case, Cases, Subject};
use coverage::Coverage;
use fairness::Fairness;
use leaks::Leaks;
use offers::Offers;
use truth::Agreement;
use variety::Variety;
use voice_leading::Leading;

use crate::quiz::{Question, from_bag, question_seed};

/// What was found.
#[derive(Clone, Debug, Serialize)]
pub struct Audit {
    /// Questions that were made and looked at.
    pub questions: u32,
    /// The seed of every drill.
    pub seed: u64,
    /// Questions that could not be made, with the reason.
    pub refused: Cases,
    /// Whether the analyser agrees with the truth.
    pub truth: Agreement,
    /// Whether other answers are as well supported.
    pub fairness: Fairness,
    /// Whether the device can be guessed without harmony.
    pub leaks: Leaks,
    /// Whether the right answer can be guessed from what is offered.
    pub offers: Offers,
    /// How much lines and settings differ.
    pub variety: Variety,
    /// Faults of voice leading.
    pub voice_leading: Leading,
    /// How often each device was asked.
    pub coverage: Coverage,
}

/// Makes the questions of a plan and looks for faults in them.
#[must_use]
pub fn audit(plan: &Plan<'_>) -> Audit {
    let mut refused = Cases::default();
    let mut made = 0;
    let mut truth = truth::TruthExaminer::default();
    let mut fairness = fairness::FairnessExaminer::default();
    let mut leaks = leaks::LeakExaminer::default();
    let mut offers = offers::OfferExaminer::default();
    let mut variety = variety::VarietyExaminer::new(plan);
    let mut leading = voice_leading::VoiceLeadingExaminer::default();
    let mut coverage = coverage::CoverageExaminer::default();
    let drills = u32::try_from(plan.drills.len()).expect("exercises are few");
    for number in 0..plan.questions {
        let (place, index) = (number % drills, number / drills);
        let drill = &plan.drills[place as usize];
        let wanted = from_bag(drill, plan.seed, index);
        let seed = question_seed(plan.seed, index);
        let question = match Question::new(drill, plan.catalogue, wanted, seed) {
            Ok(question) => question,
            Err(reason) => {
                refused.add(Case {
                    exercise: drill.exercise.clone(),
                    index,
                    device: wanted.clone(),
                    line: String::new(),
                    slot: None,
                    what: reason.to_string(),
                });
                continue;
            }
        };
        made += 1;
        let subject = Subject {
            catalogue: plan.catalogue,
            drill,
            place: place as usize,
            index,
            question: &question,
        };
        let read = truth.examine(&subject);
        fairness.examine(&subject, &read);
        leaks.examine(&subject);
        offers.examine(&subject);
        variety.examine(&subject);
        leading.examine(&subject);
        coverage.examine(&subject);
    }
    Audit {
        questions: made,
        seed: plan.seed,
        refused,
        truth: truth.finish(),
        fairness: fairness.finish(),
        leaks: leaks.finish(),
        offers: offers.finish(),
        variety: variety.finish(plan),
        voice_leading: leading.finish(),
        coverage: coverage.finish(plan),
    }
}

impl Audit {
    /// What falls short, a sentence each; nothing if the questions may be trusted.
    #[must_use]
    pub fn faults(&self) -> Vec<String> {
        let refused = self.refused.count();
        let refused = (refused > 0).then(|| format!("{refused} questions could not be made"));
        [
            refused,
            self.truth.fault(),
            self.fairness.fault(),
            self.leaks.fault(),
            self.variety.fault(),
        ]
        .into_iter()
        .flatten()
        .chain(self.voice_leading.faults())
        .chain(self.coverage.fault())
        .collect()
    }
}

#[cfg(test)]
mod tests;

//! Marks: how an answer compares with the truth, and what can be learned from it.

use super::answer::Answer;
use super::question::{Ask, Question, Truth};
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::{Progression, Sounding, Tier};
use crate::theory::Numeral;

/// The mark of one answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    pub answer: Answer,
    pub tier: Tier,
    /// 0 to 1.
    pub credit: f64,
    /// The device that the answer would have been, where it names one of another device.
    pub heard_as: Option<DeviceId>,
}

impl Mark {
    /// Marks an answer.
    #[must_use]
    pub fn new(question: &Question, ask: &Ask, answer: Answer, catalogue: &Catalogue) -> Self {
        let answer = match &ask.truth {
            Truth::Chord(sounding) => as_meant(sounding, answer),
            Truth::Choice(_) | Truth::Key(_) | Truth::Slots(_) => answer,
        };
        let tier = match (&ask.truth, &answer) {
            (Truth::Chord(sounding), Answer::Numeral { numeral, .. }) => sounding.judge(numeral),
            (Truth::Choice(truth), Answer::Choice(choice)) => right_if(truth == choice),
            (Truth::Key(truth), Answer::Key(key)) => right_if(truth == key),
            (Truth::Slots(truth), Answer::Slots(slots)) => near_if(overlap(truth, slots)),
            (Truth::Chord(_) | Truth::Choice(_) | Truth::Key(_) | Truth::Slots(_), _) => {
                Tier::Wrong
            }
        };
        let credit = match (&ask.truth, &answer) {
            (Truth::Slots(truth), Answer::Slots(slots)) => overlap(truth, slots),
            _ => tier.credit(),
        };
        let heard_as = match (&answer, ask.slot) {
            _ if tier.is_right() => None,
            (Answer::Numeral { numeral, .. }, Some(slot)) => {
                heard_as(question, slot, numeral, catalogue)
            }
            (Answer::Choice(choice), _) => other_device(ask, *choice),
            _ => None,
        };
        Self {
            answer,
            tier,
            credit,
            heard_as,
        }
    }
}

/// The answer in the reading that does it most good. The figured reading of a bare six
/// counts where its bass is the one that sounds.
pub(super) fn as_meant(sounding: &Sounding, answer: Answer) -> Answer {
    match answer {
        Answer::Numeral {
            numeral,
            otherwise: Some(other),
        } if other.sounding_bass() == sounding.truth.sounding_bass()
            && sounding.judge(&other) < sounding.judge(&numeral) =>
        {
            Answer::Numeral {
                numeral: other,
                otherwise: Some(numeral),
            }
        }
        Answer::Numeral { .. } | Answer::Choice(_) | Answer::Key(_) | Answer::Slots(_) => answer,
    }
}

const fn right_if(right: bool) -> Tier {
    if right { Tier::Right } else { Tier::Wrong }
}

/// Half or more of it earns a near miss.
fn near_if(overlap: f64) -> Tier {
    if overlap >= 1.0 {
        Tier::Right
    } else if overlap >= 0.5 {
        Tier::AreaOnly
    } else {
        Tier::Wrong
    }
}

/// The device that a wrong choice names, where the choices are devices.
fn other_device(ask: &Ask, choice: usize) -> Option<DeviceId> {
    let chosen = ask.offered.get(choice)?;
    (!ask.devices.contains(chosen)).then(|| chosen.clone())
}

/// Slots in both over slots in either.
fn overlap(truth: &[usize], answer: &[usize]) -> f64 {
    let both = truth.iter().filter(|slot| answer.contains(slot)).count();
    let either = truth.len() + answer.len() - both;
    if either == 0 {
        1.0
    } else {
        both as f64 / either as f64
    }
}

/// The device that the line would have held there with this numeral.
fn heard_as(
    question: &Question,
    slot: usize,
    numeral: &Numeral,
    catalogue: &Catalogue,
) -> Option<DeviceId> {
    let progression = &question.progression;
    let line = progression.line.with(slot, numeral.clone());
    let heard = Progression::new(progression.key, line, catalogue);
    let own: Vec<&DeviceId> = progression.devices_at(slot).collect();
    heard.devices_at(slot).find(|id| !own.contains(id)).cloned()
}

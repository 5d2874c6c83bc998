//! What a pupil may hear beside the truth: the line with the answer in it.

use super::answer::Answer;
use super::kinds::line_with;
use super::mark::Mark;
use super::question::{Ask, Question};
use super::sounding_out::Hearing;
use crate::devices::Catalogue;

/// The line with the wrong answer in it, or the other of two lines; nothing where the
/// answer was right or is nothing that sounds.
pub(super) fn mine(
    question: &Question,
    ask: &Ask,
    mark: &Mark,
    catalogue: &Catalogue,
) -> Option<Hearing> {
    if question.other.is_some() {
        return Some(Hearing::Other);
    }
    if mark.tier.is_right() {
        return None;
    }
    let line = match (&mark.answer, ask.slot, &mark.heard_as) {
        (Answer::Numeral { numeral, .. }, Some(slot), _) => {
            let line = &question.progression.line;
            Some(line.with(slot, numeral.clone()))
        }
        (Answer::Choice(_), _, Some(device)) => line_with(question, device, catalogue),
        _ => None,
    };
    line.map(|line| Hearing::With(Box::new(line)))
}

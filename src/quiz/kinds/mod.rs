//! The kinds of questions. A kind turns a line into what is asked of it; it produces
//! data only and knows nothing of how it is shown.

mod degrees;
mod finish_chart;
mod home;
mod leaves_key;
mod name_chords;
mod suited;
mod which_device;
mod which_of_two;

use rand_chacha::ChaCha8Rng;

use super::drill::Drill;
use super::kind::QuestionKind;
use super::no_question::NoQuestion;
use super::question::Question;
use crate::devices::Catalogue;

/// Puts what is asked, with its truth, into a question that has its line.
pub(super) fn ask(
    question: &mut Question,
    drill: &Drill,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    match drill.kind {
        QuestionKind::NameChords => name_chords::ask(question, drill, catalogue, random),
        QuestionKind::LeavesKey => leaves_key::ask(question, drill, catalogue),
        QuestionKind::WhichDevice => which_device::ask(question, drill, catalogue, random),
        QuestionKind::Home => home::ask(question, drill, random),
        QuestionKind::WhichOfTwo => which_of_two::ask(question, catalogue, random),
        QuestionKind::Degrees => degrees::ask(question, drill),
        QuestionKind::FinishChart => finish_chart::ask(question, drill, catalogue, random),
    }
}

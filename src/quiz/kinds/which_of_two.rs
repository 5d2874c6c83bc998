//! Which of two lines holds a device? The other line is the same but for the chords that
//! turn the device into one of its neighbours.

use rand::RngExt;
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::twin::twin;
use super::unsuited;
use crate::devices::{Catalogue, Device};
use crate::quiz::answer::Form;
use crate::quiz::question::{Ask, NoQuestion, Other, Prompt, Question, Truth};

/// The most chords by which the lines may differ.
const MOST_CHANGES: usize = 2;

pub(super) fn ask(
    question: &mut Question,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    let wanted = catalogue
        .get(&question.wanted)
        .ok_or_else(|| unsuited(question))?;
    let mut neighbours: Vec<&Device> = wanted
        .neighbours
        .iter()
        .filter_map(|id| catalogue.get(id))
        .collect();
    neighbours.shuffle(random);
    let (neighbour, progression) =
        twin(question, &neighbours, MOST_CHANGES, catalogue).ok_or_else(|| unsuited(question))?;
    let is_first = random.random_bool(0.5);
    question.prompt = Prompt::Plain(format!("Which line has the {}?", wanted.name()));
    question.asks = vec![Ask {
        slot: None,
        form: Form::OneOf {
            choices: vec!["the first line".to_owned(), "the second line".to_owned()],
        },
        truth: Truth::Choice(usize::from(is_first)),
        devices: vec![wanted.id.clone()],
        offered: if is_first {
            vec![neighbour.id.clone(), wanted.id.clone()]
        } else {
            vec![wanted.id.clone(), neighbour.id.clone()]
        },
    }];
    question.other = Some(Other {
        progression,
        is_first,
    });
    Ok(())
}

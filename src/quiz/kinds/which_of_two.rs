//! Which of two lines holds a device? The other line is the same but for the chords that
//! turn the device into one of its neighbours.

use rand::RngExt;
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::suited::unsuited;
use crate::devices::{Catalogue, Device};
use crate::quiz::ask::{Ask, LineAsk};
use crate::quiz::material::Other;
use crate::quiz::minimal_pair::minimal_pair;
use crate::quiz::no_question::NoQuestion;
use crate::quiz::prompt::Prompt;
use crate::quiz::question::Question;

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
        minimal_pair(question.material(), &neighbours, MOST_CHANGES, catalogue)
            .ok_or_else(|| unsuited(question))?;
    let is_first = random.random_bool(0.5);
    question.prompt = Prompt::Plain(format!("Which line has the {}?", wanted.name()));
    let (device, neighbour) = (wanted.id.clone(), neighbour.id.clone());
    question.asks = vec![Ask::Line(LineAsk::new(device, neighbour, is_first))];
    question.other = Some(Other {
        progression,
        is_first,
    });
    Ok(())
}

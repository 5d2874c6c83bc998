//! Finish the chart: some chords are given, the others are asked.

use rand::RngExt;
use rand_chacha::ChaCha8Rng;

use super::name_chords::{chord, slots};
use super::unsuited;
use crate::devices::Catalogue;
use crate::quiz::drill::{Asked, Drill};
use crate::quiz::question::{NoQuestion, Prompt, Question};

pub(super) fn ask(
    question: &mut Question,
    drill: &Drill,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    let marked = question
        .progression
        .marked(&question.wanted)
        .ok_or_else(|| unsuited(question))?;
    let mut open = slots(question, drill.asked).ok_or_else(|| unsuited(question))?;
    if drill.asked == Asked::EveryChord {
        // A chart with nothing in it is another kind: half of it is given.
        open.retain(|slot| *slot == marked || random.random_bool(0.5));
    }
    let all = 0..question.progression.line.slots().len();
    question.given = all.filter(|slot| !open.contains(slot)).collect();
    if question.given.is_empty() {
        return Err(unsuited(question));
    }
    let asks = open
        .into_iter()
        .map(|slot| chord(question, drill, catalogue, slot, random));
    question.asks = asks.collect();
    question.prompt = Prompt::Plain("Which chord is missing?".to_owned());
    Ok(())
}

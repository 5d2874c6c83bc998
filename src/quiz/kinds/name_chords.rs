//! Name what chords do: every chord, those out of the key, or one that is marked.

use rand_chacha::ChaCha8Rng;

use super::{tested, unsuited};
use crate::devices::Catalogue;
use crate::harmony::Sounding;
use crate::quiz::answer::Form;
use crate::quiz::choices;
use crate::quiz::drill::{Asked, Drill};
use crate::quiz::question::{Ask, NoQuestion, Prompt, Question, Truth};

pub(super) fn ask(
    question: &mut Question,
    drill: &Drill,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    let slots = slots(question, drill.asked).ok_or_else(|| unsuited(question))?;
    let asks = slots
        .into_iter()
        .map(|slot| chord(question, drill, catalogue, slot, random));
    question.asks = asks.collect();
    question.prompt = Prompt::Plain("What does the marked chord do?".to_owned());
    Ok(())
}

/// What is asked of one chord.
pub(super) fn chord(
    question: &Question,
    drill: &Drill,
    catalogue: &Catalogue,
    slot: usize,
    random: &mut ChaCha8Rng,
) -> Ask {
    let sounding = Sounding::of(&question.progression.line, slot, question.key().mode());
    let choices = match drill.answers {
        0 => Vec::new(),
        answers => choices::numerals(slot, &sounding, question, drill, catalogue, answers, random),
    };
    Ask {
        slot: Some(slot),
        form: Form::Numeral { choices },
        truth: Truth::Chord(Box::new(sounding)),
        devices: tested(question, drill, slot),
        offered: Vec::new(),
    }
}

/// The slots that are asked.
pub(super) fn slots(question: &Question, asked: Asked) -> Option<Vec<usize>> {
    let progression = &question.progression;
    let own = progression.occurrence(&question.wanted)?.own.clone();
    Some(match asked {
        Asked::EveryChord => (0..progression.line.slots().len()).collect(),
        Asked::ChordsOutOfKey => {
            let out: Vec<usize> = (0..progression.line.slots().len())
                .filter(|slot| progression.leaves_key(*slot))
                .collect();
            if out.is_empty() { own.collect() } else { out }
        }
        Asked::MarkedChord => vec![progression.marked(&question.wanted)?],
    })
}

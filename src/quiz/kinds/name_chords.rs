//! Name what chords do: every chord, those out of the key, or one that is marked.

use rand_chacha::ChaCha8Rng;

use super::suited::{common, marked, tested, unsuited};
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::{ChordInContext, Common};
use crate::quiz::ask::{Ask, ChordAsk};
use crate::quiz::distractors::Names;
use crate::quiz::drill::{Asked, Drill};
use crate::quiz::no_question::NoQuestion;
use crate::quiz::prompt::Prompt;
use crate::quiz::question::Question;

pub(super) fn ask(
    question: &mut Question,
    drill: &Drill,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    let common = common(question, drill, catalogue);
    let slots = slots(question, drill.asked, &common).ok_or_else(|| unsuited(question))?;
    question.asks = chords(question, drill, catalogue, &common, &slots, random);
    question.prompt = Prompt::Plain("What does the marked chord do?".to_owned());
    Ok(())
}

/// What is asked of some chords.
pub(super) fn chords(
    question: &Question,
    drill: &Drill,
    catalogue: &Catalogue,
    common: &Common,
    slots: &[usize],
    random: &mut ChaCha8Rng,
) -> Vec<Ask> {
    let names = (drill.answers > 0).then(|| Names::of(question, drill, catalogue));
    let ask = |slot: &usize| {
        let devices = tested(question, drill, common, slots, *slot);
        chord(question, drill, names.as_ref(), (*slot, devices), random)
    };
    slots.iter().map(ask).collect()
}

fn chord(
    question: &Question,
    drill: &Drill,
    names: Option<&Names>,
    (slot, devices): (usize, Vec<DeviceId>),
    random: &mut ChaCha8Rng,
) -> Ask {
    let sounding = ChordInContext::of(&question.progression.line, slot, question.key().mode());
    let choices = names.map_or_else(Vec::new, |names| {
        names.offered(slot, &sounding, question, drill.answers, random)
    });
    Ask::Chord(ChordAsk::new(slot, sounding, choices, devices))
}

/// The slots that are asked.
pub(super) fn slots(question: &Question, asked: Asked, common: &Common) -> Option<Vec<usize>> {
    let progression = &question.progression;
    let own = progression.occurrence(&question.wanted)?.own.clone();
    Some(match asked {
        Asked::EveryChord => (0..progression.line.slots().len()).collect(),
        Asked::ChordsOutOfKey => {
            let out: Vec<usize> = (0..progression.line.slots().len())
                .filter(|slot| progression.leaves_key(*slot))
                .collect();
            if out.is_empty() {
                common.telling_of(&question.wanted, &progression.line, own)
            } else {
                out
            }
        }
        Asked::MarkedChord => vec![marked(question, common)?],
    })
}

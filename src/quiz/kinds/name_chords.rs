//! Name what chords do: every chord, those out of the key, or one that is marked.

use rand_chacha::ChaCha8Rng;

use crate::devices::{Catalogue, DeviceId};
use crate::harmony::Sounding;
use crate::quiz::answer::Form;
use crate::quiz::choices;
use crate::quiz::drill::{Asked, Drill};
use crate::quiz::question::{Ask, NoQuestion, Question, Truth};

pub(super) fn ask(
    question: &mut Question,
    drill: &Drill,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    let unsuited = || NoQuestion::Unsuited {
        kind: question.kind,
        device: question.wanted.clone(),
    };
    let slots = slots(question, drill.asked).ok_or_else(unsuited)?;
    let asks: Vec<Ask> = slots
        .into_iter()
        .map(|slot| {
            let mode = question.key().mode();
            let sounding = Sounding::of(&question.progression.line, slot, mode);
            let choices = match drill.answers {
                0 => Vec::new(),
                answers => {
                    choices::numerals(&sounding, question, drill, catalogue, answers, random)
                }
            };
            Ask {
                slot: Some(slot),
                form: Form::Numeral { choices },
                truth: Truth::Chord(Box::new(sounding)),
                devices: tested(question, drill, slot),
            }
        })
        .collect();
    question.asks = asks;
    Ok(())
}

/// The devices of the drill that a slot belongs to.
fn tested(question: &Question, drill: &Drill, slot: usize) -> Vec<DeviceId> {
    question
        .progression
        .devices_at(slot)
        .filter(|id| drill.devices.contains(id))
        .cloned()
        .collect()
}

fn slots(question: &Question, asked: Asked) -> Option<Vec<usize>> {
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

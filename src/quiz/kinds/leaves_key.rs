//! Which chords leave the key?

use super::suited::{common, tested, unsuited};
use crate::devices::{Catalogue, DeviceId};
use crate::quiz::ask::{Ask, SlotsAsk};
use crate::quiz::drill::Drill;
use crate::quiz::no_question::NoQuestion;
use crate::quiz::prompt::Prompt;
use crate::quiz::question::Question;

pub(super) fn ask(
    question: &mut Question,
    drill: &Drill,
    catalogue: &Catalogue,
) -> Result<(), NoQuestion> {
    let all = question.progression.line.slots().len();
    let out: Vec<usize> = (0..all)
        .filter(|slot| question.progression.leaves_key(*slot))
        .collect();
    if out.is_empty() || out.len() == all {
        return Err(unsuited(question));
    }
    let common = common(question, drill, catalogue);
    let mut devices: Vec<DeviceId> = out
        .iter()
        .flat_map(|slot| tested(question, drill, &common, &out, *slot))
        .collect();
    devices.sort();
    devices.dedup();
    question.asks = vec![Ask::Slots(SlotsAsk::new(out, all, devices))];
    question.prompt = Prompt::Plain("Which chords have a note outside the key?".to_owned());
    Ok(())
}

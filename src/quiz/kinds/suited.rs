//! What a line lets a kind ask.

use crate::devices::{Catalogue, Device, DeviceId, Occurrence};
use crate::harmony::Common;
use crate::quiz::drill::Drill;
use crate::quiz::no_question::NoQuestion;
use crate::quiz::question::Question;

/// The kind cannot ask about the wanted device in this line.
pub(super) fn unsuited(question: &Question) -> NoQuestion {
    NoQuestion::Unsuited {
        kind: question.kind,
        device: question.wanted.clone(),
    }
}

/// What tells the devices of a drill from each other, in the question's mode.
pub(super) fn common(question: &Question, drill: &Drill, catalogue: &Catalogue) -> Common {
    let mode = question.key().mode();
    let devices = drill.devices.iter().filter_map(|id| catalogue.get(id));
    let met: Vec<&Device> = devices.filter(|one| one.modes.contains(&mode)).collect();
    Common::of(&met, mode)
}

/// The chord to ask about when the wanted device is asked by one of its own: the one that
/// the line was made around if it tells the device, or else the one that tells it best.
pub(super) fn marked(question: &Question, common: &Common) -> Option<usize> {
    let progression = &question.progression;
    let wanted = &question.wanted;
    let focus = progression.marked(wanted)?;
    let own = progression
        .devices
        .iter()
        .find(|found| found.device == *wanted && found.own.contains(&focus))
        .map(|found| found.own.clone())?;
    let telling = common.telling_of(wanted, &progression.line, own);
    if telling.contains(&focus) {
        Some(focus)
    } else {
        telling.first().copied()
    }
}

/// The devices of the drill that an answer about a slot tells of, where these slots are
/// asked: the slot belongs to the device, and of those asked none tells it better.
pub(super) fn tested(
    question: &Question,
    drill: &Drill,
    common: &Common,
    asked: &[usize],
    slot: usize,
) -> Vec<DeviceId> {
    let progression = &question.progression;
    let here = |found: &&Occurrence| {
        let own: Vec<usize> = found
            .own
            .clone()
            .filter(|own| asked.contains(own))
            .collect();
        own.contains(&slot)
            && drill.devices.contains(&found.device)
            && common
                .telling(&found.device, &progression.line, &own)
                .contains(&slot)
    };
    let mut devices: Vec<DeviceId> = progression
        .devices
        .iter()
        .filter(here)
        .map(|found| found.device.clone())
        .collect();
    devices.dedup();
    devices
}

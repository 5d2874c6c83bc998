//! What a line lets a kind ask.

use crate::devices::DeviceId;
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

/// The devices of the drill that a slot belongs to.
pub(super) fn tested(question: &Question, drill: &Drill, slot: usize) -> Vec<DeviceId> {
    let devices = question.progression.devices_at(slot);
    devices
        .filter(|id| drill.devices.contains(id))
        .cloned()
        .collect()
}

//! How near the wrong answers on offer lie to the right one.

use super::answer::{Answer, Form};
use super::mark::Mark;
use super::question::{Ask, Question};
use crate::devices::{Catalogue, Device, DeviceId};

/// The part of the wrong answers on offer, 0 to 1, that would be a near miss, or would
/// name a neighbour of the asked device or one of its family. Nothing where answers are
/// typed or are neither chords nor devices.
pub(super) fn nearness(question: &Question, catalogue: &Catalogue) -> Option<f64> {
    let (mut near, mut wrong) = (0_u32, 0_u32);
    for ask in &question.asks {
        let asked: Vec<&Device> = asked(question, ask)
            .filter_map(|id| catalogue.get(id))
            .collect();
        let is_related = |id: &DeviceId| {
            let family = catalogue.get(id).map(|device| device.family);
            let mut asked = asked.iter();
            asked.any(|device| device.neighbours.contains(id) || Some(device.family) == family)
        };
        for answer in offered(ask) {
            let mark = Mark::new(question, ask, answer, catalogue);
            if mark.tier.is_right() {
                continue;
            }
            wrong += 1;
            near += u32::from(mark.credit > 0.0 || mark.heard_as.iter().any(is_related));
        }
    }
    (wrong > 0).then(|| f64::from(near) / f64::from(wrong))
}

fn asked<'q>(question: &'q Question, ask: &'q Ask) -> impl Iterator<Item = &'q DeviceId> {
    let wanted = ask.devices.is_empty().then_some(&question.wanted);
    ask.devices.iter().chain(wanted)
}

/// The answers on offer that name chords or devices.
fn offered(ask: &Ask) -> Vec<Answer> {
    match &ask.form {
        Form::Numeral { choices } => choices.iter().cloned().map(Answer::chosen).collect(),
        Form::OneOf { .. } => (0..ask.offered.len()).map(Answer::Choice).collect(),
        Form::Key { .. } | Form::Slots => Vec::new(),
    }
}

//! Which device is this? Its place in the line is pointed at.

use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::unsuited;
use crate::devices::{Catalogue, Device, DeviceId};
use crate::quiz::answer::Form;
use crate::quiz::drill::Drill;
use crate::quiz::question::{Ask, NoQuestion, Prompt, Question, Truth};

/// Answers on offer where the exercise names no number.
const OFFERED: usize = 5;

pub(super) fn ask(
    question: &mut Question,
    drill: &Drill,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    let progression = &question.progression;
    let own = progression
        .occurrence(&question.wanted)
        .map(|found| found.own.clone());
    let (Some(own), Some(wanted)) = (own, catalogue.get(&question.wanted)) else {
        return Err(unsuited(question));
    };
    let mode = question.key().mode();
    // What is really in the line, or is a name for the same chords, is no wrong answer.
    let is_wrong = |device: &Device| {
        device.id != wanted.id
            && device.modes.contains(&mode)
            && progression.occurrence(&device.id).is_none()
            && !wanted.yields_to.contains(&device.id)
            && !device.yields_to.contains(&wanted.id)
    };
    let mut offered = vec![wanted];
    let count = if drill.answers == 0 {
        OFFERED
    } else {
        drill.answers
    };
    let named = |ids: &[DeviceId]| ids.iter().filter_map(|id| catalogue.get(id)).collect();
    let kin = catalogue
        .devices()
        .iter()
        .filter(|device| device.family == wanted.family);
    for mut circle in [
        // The drill's own first: a name that is never right here is no trap for long.
        named(&drill.devices),
        named(&wanted.neighbours),
        kin.collect::<Vec<_>>(),
    ] {
        circle.shuffle(random);
        for device in circle {
            let is_new = offered.iter().all(|other| other.id != device.id);
            if offered.len() < count && is_new && is_wrong(device) {
                offered.push(device);
            }
        }
    }
    if offered.len() < 2 {
        return Err(unsuited(question));
    }
    offered.sort_by_key(|device| device.name());
    let truth = offered.iter().position(|device| device.id == wanted.id);
    question.asks = vec![Ask {
        slot: None,
        form: Form::OneOf {
            choices: offered.iter().map(|d| d.name().to_owned()).collect(),
        },
        truth: Truth::Choice(truth.expect("the wanted device is on offer")),
        devices: vec![wanted.id.clone()],
        offered: offered.iter().map(|device| device.id.clone()).collect(),
    }];
    question.pointed = own.collect();
    question.prompt = Prompt::Plain("Which device is at the marked chords?".to_owned());
    Ok(())
}

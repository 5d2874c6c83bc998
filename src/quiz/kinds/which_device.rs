//! Which device is this? Its place in the line is pointed at.

use std::ops::Range;

use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::suited::unsuited;
use crate::devices::{Catalogue, Device, DeviceId};
use crate::quiz::ask::{Ask, DeviceAsk};
use crate::quiz::drill::Drill;
use crate::quiz::no_question::NoQuestion;
use crate::quiz::prompt::Prompt;
use crate::quiz::question::Question;
use crate::theory::Mode;

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
    question.asks = vec![Ask::Device(DeviceAsk::new(&offered, &wanted.id))];
    let chords = question.progression.line.slots().len();
    question.pointed = pointed(own, most_chords(drill, catalogue, mode), chords).collect();
    question.prompt = Prompt::Plain("Which device is in the marked chords?".to_owned());
    Ok(())
}

/// The most chords that a device of the drill is spelled out with.
fn most_chords(drill: &Drill, catalogue: &Catalogue, mode: Mode) -> usize {
    let devices = drill.devices.iter().filter_map(|id| catalogue.get(id));
    devices
        .flat_map(|device| device.expansions_in(mode))
        .map(|expansion| expansion.own.len())
        .max()
        .unwrap_or(1)
}

/// The device's own chords, and as many of those after and before it as make `count`: how
/// many are pointed at would otherwise tell which device it is.
fn pointed(own: Range<usize>, count: usize, chords: usize) -> Range<usize> {
    let end = own.end.max((own.start + count).min(chords));
    let start = own.start.min(end.saturating_sub(count));
    start..end
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_many_chords_are_pointed_at_whatever_the_device() {
        for (own, expected) in [
            (1..4, 1..4),
            (1..3, 1..4),
            (3..5, 2..5),
            (4..5, 2..5),
            (0..5, 0..5),
        ] {
            assert_eq!(pointed(own, 3, 5), expected);
        }
    }
}

//! The built-in exercises at work: every device of each can be asked, in many ways.

use std::collections::BTreeSet;

use plagal::devices::Catalogue;
use plagal::quiz::{Question, question_seed};
use plagal::theory::BareSix;

use crate::built_in::exercises;

/// Questions made of each device in each exercise.
const SEEDS: u32 = 12;

#[test]
fn every_device_of_every_exercise_can_be_asked() {
    let catalogue = Catalogue::built_in();
    let mut wrong = Vec::new();
    for exercise in exercises(&catalogue) {
        let drill = exercise.drill(BareSix::AddedSixth);
        for device in &exercise.drill.devices {
            let mut lines = BTreeSet::new();
            for index in 0..SEEDS {
                let seed = question_seed(7, index);
                match Question::new(&drill, &catalogue, device, seed) {
                    Err(refusal) => wrong.push(format!("{}: {device}: {refusal}", exercise.id)),
                    Ok(question) => {
                        assert_eq!(&question.wanted, device);
                        assert!(!question.asks.is_empty(), "{}: {device}", exercise.id);
                        lines.insert(question.progression.line.to_string());
                    }
                }
            }
            if lines.len() < 6 {
                wrong.push(format!(
                    "{}: {device}: {} lines of {SEEDS}",
                    exercise.id,
                    lines.len()
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_device_that_can_be_asked_is_in_an_exercise() {
    let catalogue = Catalogue::built_in();
    let exercises = exercises(&catalogue);
    let drilled: BTreeSet<_> = exercises
        .iter()
        .flat_map(|exercise| &exercise.drill.devices)
        .collect();
    let missing: Vec<_> = catalogue
        .devices()
        .iter()
        .filter(|device| device.asked && !drilled.contains(&device.id))
        .map(|device| device.id.as_str())
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn exercises_lead_from_few_devices_to_many_and_every_device_comes_early_once() {
    let catalogue = Catalogue::built_in();
    let exercises = exercises(&catalogue);
    let mixed = exercises.last().expect("there are exercises");
    assert!(exercises[0].drill.devices.len() <= 4, "the first is small");
    let earlier: BTreeSet<_> = exercises[..exercises.len() - 1]
        .iter()
        .flat_map(|exercise| &exercise.drill.devices)
        .collect();
    for device in &mixed.drill.devices {
        assert!(
            earlier.contains(device),
            "{device} is met first in the mixed drill"
        );
    }
}

#[test]
fn each_exercise_has_confusable_neighbours_to_tell_apart() {
    let catalogue = Catalogue::built_in();
    for exercise in exercises(&catalogue) {
        let alone = exercise.drill.devices.iter().filter(|id| {
            let device = catalogue.get(id).expect("it was checked");
            !exercise.drill.devices.iter().any(|other| {
                let entry = catalogue.get(other).expect("it was checked");
                device.neighbours.contains(other) || entry.neighbours.contains(id)
            })
        });
        let alone: Vec<_> = alone.collect();
        assert!(
            alone.is_empty(),
            "{}: {alone:?} has no neighbour",
            exercise.id
        );
    }
}

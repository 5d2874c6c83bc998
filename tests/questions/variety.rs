//! How many different lines each exercise makes for each of its devices. `PLAGAL_DRAWS` says
//! how many are drawn; the figures in the notes come from 1,000.

use std::collections::BTreeSet;

use plagal::devices::Catalogue;
use plagal::quiz::{Drill, Question, question_seed};
use plagal::theory::BareSix;

use crate::built_in::exercises;

/// What a device must reach in a thousand draws.
const WANTED: usize = 200;

fn drills(catalogue: &Catalogue) -> Vec<Drill> {
    exercises(catalogue)
        .iter()
        .map(|exercise| exercise.drill(BareSix::AddedSixth))
        .collect()
}

#[test]
fn no_device_of_an_exercise_is_heard_in_few_lines() {
    let draws: u32 = std::env::var("PLAGAL_DRAWS").map_or(400, |count| {
        count.parse().expect("PLAGAL_DRAWS is a number")
    });
    let catalogue = Catalogue::built_in();
    let mut found = Vec::new();
    for drill in drills(&catalogue) {
        for wanted in &drill.devices {
            let lines: BTreeSet<String> = (0..draws)
                .filter_map(|index| {
                    Question::new(&drill, &catalogue, wanted, question_seed(11, index)).ok()
                })
                .map(|question| question.progression.line.to_string())
                .collect();
            found.push((lines.len(), format!("{wanted} in {}", drill.exercise)));
        }
    }
    found.sort();
    for (lines, what) in found.iter().take(40) {
        println!("{lines} lines in {draws} draws: {what}");
    }
    // Fewer draws find fewer lines.
    let enough = WANTED.min(draws as usize / 4);
    let few: Vec<_> = found.iter().filter(|(lines, _)| *lines < enough).collect();
    assert!(few.is_empty(), "fewer than {enough}: {few:?}");
}

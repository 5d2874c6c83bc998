//! Many questions of every built-in exercise. `PLAGAL_QUESTIONS` says how many of each;
//! the figures in the notes come from 10,000.

use plagal::arranging;
use plagal::devices::Catalogue;
use plagal::quiz::{Ask, Drill, Question, question_seed};
use plagal::theory::{BareSix, Notation};

use crate::built_in::exercises;

fn drills(catalogue: &Catalogue) -> Vec<Drill> {
    exercises(catalogue)
        .iter()
        .map(|exercise| exercise.drill(BareSix::AddedSixth))
        .collect()
}

/// What is wrong with a question; nothing if it is fair.
fn fault(question: &Question, drill: &Drill, catalogue: &Catalogue) -> Option<String> {
    if question.progression.occurrence(&question.wanted).is_none() {
        return Some("the wanted device is not in the line".to_owned());
    }
    let range = |bars| drill.bars.contains(&bars);
    if !range(question.progression.line.bars()) {
        return Some("the line has another length than was asked for".to_owned());
    }
    if question.asks.is_empty() {
        return Some("nothing is asked".to_owned());
    }
    question.asks.iter().find_map(|ask| {
        ask.chord()?;
        let is_right = |ask: &Ask| {
            let mark = ask.mark(question.material(), catalogue);
            mark.is_some_and(|mark| mark.tier.is_right())
        };
        let mut ask = ask.clone();
        // As a pupil would type it, from what is shown.
        for notation in Notation::ALL {
            for name in ask.accepted(notation) {
                if ask.read(&name, BareSix::AddedSixth).is_err() {
                    return Some(format!("the accepted `{name}` cannot be typed"));
                }
                if !is_right(&ask) {
                    return Some(format!("the accepted `{name}` is marked wrong"));
                }
            }
        }
        let offers = ask.labels(Notation::Text).len();
        let right = (0..offers)
            .filter(|choice| ask.choose(*choice) && is_right(&ask))
            .count();
        (offers > 0 && (right != 1 || offers != drill.answers))
            .then(|| format!("{right} right answers among {offers} on offer"))
    })
}

#[test]
fn no_question_fails_and_none_asks_what_it_does_not_accept() {
    let count = std::env::var("PLAGAL_QUESTIONS")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(150);
    let catalogue = Catalogue::built_in();
    let mut faults = Vec::new();
    for drill in drills(&catalogue) {
        for index in 0..count {
            let wanted = &drill.devices[index as usize % drill.devices.len()];
            let seed = question_seed(7, index);
            match Question::new(&drill, &catalogue, wanted, seed) {
                Ok(question) => {
                    let found = fault(&question, &drill, &catalogue);
                    faults.extend(found.map(|fault| {
                        let line = &question.progression.line;
                        format!("{} {index} {wanted}: {fault}: {line}", drill.exercise)
                    }));
                }
                Err(error) => faults.push(format!("{} {index}: {error}", drill.exercise)),
            }
        }
        println!("{}: {count} questions", drill.exercise);
    }
    let (shown, all) = (
        faults.iter().take(20).cloned().collect::<Vec<_>>(),
        faults.len(),
    );
    assert!(
        faults.is_empty(),
        "{all} faults, such as\n{}",
        shown.join("\n")
    );
}

#[test]
fn every_built_in_exercise_names_a_fair_texture() {
    let catalogue = Catalogue::built_in();
    for drill in drills(&catalogue) {
        for texture in &drill.textures {
            assert!(texture.card().fair, "{}: {}", drill.exercise, texture.id());
        }
    }
    assert!(arranging::Texture::ALL.len() > 1);
}

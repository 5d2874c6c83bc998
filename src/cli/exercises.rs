//! `plagal exercises`: what can be drilled.

use clap::Args;
use serde::Serialize;

use super::context::{Context, print};
use super::failure::Failure;
use super::shelves;
use super::table::table;
use crate::devices::DeviceId;
use crate::exercise::Exercise;

/// List the exercises
#[derive(Debug, Args)]
pub(super) struct Exercises {}

#[derive(Serialize)]
struct ListedExercise<'e> {
    id: &'e str,
    title: &'e str,
    about: &'e str,
    devices: &'e [DeviceId],
    questions: u32,
}

impl Exercises {
    pub(super) fn run(context: &Context) -> Result<(), Failure> {
        let catalogue = shelves::catalogue(&shelves::devices(context))?;
        let shelf = shelves::with_known(&catalogue, context, |known| {
            shelves::exercises(context, known, None)
        });
        let exercises = shelf.things.iter().map(|known| &known.thing);
        if context.json {
            let exercises: Vec<ListedExercise<'_>> = exercises.map(listed).collect();
            context.print_json(&serde_json::json!({ "exercises": exercises }))?;
        } else {
            let rows = exercises.map(|exercise| {
                vec![
                    exercise.id.clone(),
                    context.style.safe(&exercise.title),
                    format!("{} questions", exercise.drill.questions),
                ]
            });
            print(&table(&rows.collect::<Vec<_>>()))?;
        }
        shelves::finish(shelf)
    }
}

fn listed(exercise: &Exercise) -> ListedExercise<'_> {
    ListedExercise {
        id: &exercise.id,
        title: &exercise.title,
        about: &exercise.about,
        devices: &exercise.drill.devices,
        questions: exercise.drill.questions,
    }
}

//! Everything that a drill needs, put together from options, files and devices.

use std::env::temp_dir;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::context::Context;
use super::failure::{Failure, Missing};
use super::shelves;
use crate::devices::Catalogue;
use crate::exercise::{Exercise, Known};
use crate::host::clock;
use crate::host::library::{self, BadFile, Shelf};
use crate::host::player::Player;
use crate::host::signals::Signals;
use crate::practice::{Keeper, Performer, Person, Practice, Start, due, wishes};

/// Told where the environment names no place for the journal.
const NOWHERE: &str = "answers are not kept: the environment names no home for the journal; \
                       `--journal FILE` names a file for them";

/// A practice and the exercises that it can be given, in the order they are best taken.
pub(super) struct Practising {
    pub(super) practice: Practice,
    pub(super) exercises: Vec<Exercise>,
    /// What was found while opening, to be told.
    pub(super) told: Vec<String>,
}

impl Practising {
    /// Opens the library, the journal and the sound device. With `only` no exercise but that
    /// one is looked for.
    pub(super) fn open(context: &Context, only: Option<&str>) -> Result<Self, Failure> {
        let catalogue = Arc::new(shelves::catalogue(&shelves::devices(context))?);
        let shelf = exercises(&catalogue, context, only);
        let mut told: Vec<String> = shelf.bad.iter().map(left_out).collect();
        let exercises: Vec<Exercise> = shelf
            .things
            .into_iter()
            .map(|loaded| loaded.thing)
            .collect();
        if context.journal.is_none() {
            told.push(NOWHERE.to_owned());
        }
        let folders: Vec<PathBuf> = context
            .home
            .clone()
            .into_iter()
            .chain([temp_dir()])
            .collect();
        let person = Person {
            learner: &context.learner,
            journal: context.journal.as_deref(),
            rescue: &folders,
        };
        let (keeper, found) = Keeper::open(&person, &catalogue, clock::now());
        told.extend(found);
        let sounds = shelves::sounds(context);
        told.extend(sounds.bad.iter().map(left_out));
        let sounds = sounds
            .things
            .into_iter()
            .map(|loaded| loaded.thing)
            .collect();
        let player = Player::start(context.player.clone());
        let kit = shelves::kit(&mut shelves::kits(context), context.kit.as_deref())?.clone();
        let performer = Performer::new(player, sounds, context.tuning).with_kit(kit);
        Ok(Self {
            practice: Practice::new(catalogue, keeper, performer),
            exercises,
            told,
        })
    }

    /// The exercise of an id or of a file; without either the one that is due.
    pub(super) fn exercise(
        &self,
        named: Option<&str>,
        context: &Context,
    ) -> Result<Exercise, Failure> {
        let Some(named) = named else {
            let standings = self.practice.keeper().scorer().standings(clock::now());
            let next = due(&self.exercises, &standings)
                .iter()
                .position(|due| due.is_next);
            return Ok(self.exercises[next.unwrap_or(0)].clone());
        };
        match self.exercises.iter().find(|exercise| exercise.id == named) {
            Some(exercise) => Ok(exercise.clone()),
            None => exercise(named, self.practice.catalogue(), context),
        }
    }
}

/// That a file cannot be used, and how to learn why.
fn left_out(bad: &BadFile) -> String {
    format!("{bad}; `plagal check` tells all of it")
}

/// The exercise of an id, or of a file where the name is a path.
pub(super) fn exercise(
    named: &str,
    catalogue: &Catalogue,
    context: &Context,
) -> Result<Exercise, Failure> {
    if is_file(named) {
        let read = |text: &str| {
            shelves::with_known(catalogue, context, |known: Known<'_>| {
                Exercise::read(text, known)
            })
        };
        return library::read_file(named.as_ref(), read)
            .map_err(|bad| Failure::BadFiles(vec![bad]));
    }
    if let Some(exercise) = exercises(catalogue, context, Some(named)).find(named) {
        return Ok(exercise.clone());
    }
    // What is near, or broken, can be told of all of them alone.
    let mut shelf = exercises(catalogue, context, None);
    let found = shelves::find("exercise", &mut shelf, named).cloned();
    found.map_err(|failure| match failure {
        Failure::Missing(missing) => {
            let file = format!("{named}.json");
            let near = Path::new(&file).is_file().then_some(file).or(missing.near);
            Failure::Missing(Missing { near, ..missing })
        }
        other => other,
    })
}

/// Whether an exercise is named by its file and not by its id.
fn is_file(named: &str) -> bool {
    named.contains(['/', '\\']) || named.ends_with(".json")
}

fn exercises(catalogue: &Catalogue, context: &Context, only: Option<&str>) -> Shelf<Exercise> {
    if only.is_some_and(is_file) {
        let (things, bad) = (Vec::new(), Vec::new());
        return Shelf { things, bad };
    }
    shelves::with_known(catalogue, context, |known| {
        shelves::exercises(context, known, only)
    })
}

/// What begins an exercise's drill.
pub(super) fn start(
    exercise: &Exercise,
    questions: Option<u32>,
    seed: Option<u64>,
    context: &Context,
) -> Start {
    let mut drill = exercise.drill(context.bare_six);
    drill.questions = questions.unwrap_or(drill.questions);
    Start {
        drill,
        wishes: wishes(exercise),
        seed: seed.unwrap_or_else(clock::fresh_seed),
    }
}

/// Has signals that would end the program noted, before any answer is given.
pub(super) fn watch_ends() -> Result<Signals, Failure> {
    Signals::watch_ends().map_err(|error| Failure::Impossible {
        name: "signals".to_owned(),
        why: error.to_string(),
    })
}

/// At the end: what the journal has refused is written somewhere, and told. A signal that
/// asked for the end is what ended it, whatever else went wrong: a terminal that hung up
/// fails in its own way.
pub(super) fn end(
    mut practice: Practice,
    signals: &Signals,
    outcome: Result<(), Failure>,
) -> Result<(), Failure> {
    let settled = match practice.settle() {
        Ok(None) => Ok(()),
        Ok(Some(rescued)) => Err(Failure::Rescued(rescued)),
        Err(unsaved) => Err(Failure::Unsaved(unsaved)),
    };
    match signals.ended() {
        Some(signal) => Err(Failure::Ended {
            signal,
            refused: settled.err().map(Box::new),
        }),
        None => settled.and(outcome),
    }
}

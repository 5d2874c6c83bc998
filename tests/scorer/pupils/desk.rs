//! A practice without sound or journal, at which a scripted pupil sits.

use std::sync::{Arc, LazyLock};
use std::time::Duration;

use plagal::devices::{Catalogue, DeviceId};
use plagal::exercise::{Exercise, Known};
use plagal::host::clock;
use plagal::host::library::EXERCISES;
use plagal::host::player::{Player, Settings};
use plagal::practice::{Keeper, Performer, Person, Practice, Start, wishes};
use plagal::quiz::{AnswerManner, Event, State};
use plagal::scorer::{Bias, Trend, Word};
use plagal::synth;
use plagal::theory::BareSix;

use super::pupil::{Memory, Pupil};

static CATALOGUE: LazyLock<Arc<Catalogue>> = LazyLock::new(|| Arc::new(Catalogue::built_in()));

pub(crate) fn catalogue() -> &'static Catalogue {
    &CATALOGUE
}

/// The built-in exercises.
pub(crate) fn exercises(catalogue: &Catalogue) -> Vec<Exercise> {
    let sounds: Vec<&str> = synth::built_in()
        .iter()
        .map(|sound| sound.id.as_str())
        .collect();
    let known = Known {
        catalogue,
        sounds: &sounds,
    };
    let read = |(name, text): &(&str, &str)| {
        Exercise::read(text, known).unwrap_or_else(|_| panic!("{name} is sound"))
    };
    EXERCISES.iter().map(read).collect()
}

/// What a pupil is told of a device.
#[derive(Clone, Debug)]
pub(crate) struct Verdict {
    #[allow(dead_code)] // for those who read what failed
    pub(crate) device: DeviceId,
    /// Where it stands in the exercise.
    pub(crate) place: usize,
    pub(crate) word: Word,
    pub(crate) direction: i32,
    #[allow(dead_code)]
    pub(crate) rights: (u32, u32),
}

fn practice() -> Practice {
    let person = Person {
        learner: "mira",
        journal: None,
        rescue: &[],
    };
    let (keeper, _) = Keeper::open(&person, &CATALOGUE, 0);
    let mut player = Player::start(Settings::off());
    player.wait(Duration::from_secs(5));
    let performer = Performer::new(player, synth::built_in()[..1].to_vec(), 440.0);
    Practice::new(Arc::clone(&CATALOGUE), keeper, performer)
}

/// The practice after so many questions, in as many sittings as they need.
fn after(exercise: &Exercise, pupil: Pupil, questions: u32) -> Practice {
    let mut practice = practice();
    let mut memory = Memory::new(pupil, &exercise.drill.devices);
    let (mut asked, mut sitting) = (0, 0);
    while asked < questions {
        sitting += 1;
        practice.begin(Start {
            drill: exercise.drill(BareSix::AddedSixth),
            wishes: wishes(exercise),
            seed: sitting,
        });
        let mut number = 0;
        while !practice.is_over() && asked < questions {
            answer(&mut practice, &mut memory, exercise, number);
            number += 1;
            asked += 1;
        }
    }
    practice
}

fn answer(practice: &mut Practice, memory: &mut Memory, exercise: &Exercise, number: u32) {
    let session = practice.session().expect("a drill has begun");
    let State::Asking(asking) = session.state() else {
        panic!("a question is open: {:?}", practice.notice());
    };
    let question = asking.question.clone();
    let wanted = |id: &DeviceId| *id == question.wanted;
    let place = exercise.drill.devices.iter().position(wanted);
    for ask in &question.asks {
        let text = memory.answer(&question, ask, place.unwrap_or(usize::MAX), number);
        practice.step(Event::Type {
            text,
            now: clock::now(),
        });
        if ask.manner() == AnswerManner::OnChart {
            break;
        }
    }
    practice.step(Event::Submit { now: clock::now() });
    let marked = practice.session().map(|session| session.state().clone());
    assert!(
        matches!(marked, Some(State::Marked(_))),
        "{}: {:?}",
        exercise.id,
        practice.notice()
    );
    practice.step(Event::Next);
}

/// What a pupil is told of the exercise's devices after so many questions.
pub(crate) fn taught(exercise: &Exercise, pupil: Pupil, questions: u32) -> Vec<Verdict> {
    let practice = after(exercise, pupil, questions);
    let now = clock::now();
    let standings = practice.keeper().scorer().standings(now);
    let verdict = |(place, device): (usize, &DeviceId)| {
        let standing = standings.iter().find(|one| one.device == *device);
        let standing = standing.expect("the scorer knows the catalogue");
        Verdict {
            device: device.clone(),
            place,
            word: standing.word,
            direction: standing.trend.map_or(0, Trend::direction),
            rights: (standing.right, standing.asked),
        }
    };
    let devices = exercise.drill.devices.iter().enumerate();
    devices.map(verdict).collect()
}

/// What a pupil is told of habits.
pub(crate) fn biases(exercise: &Exercise, pupil: Pupil, questions: u32) -> Vec<String> {
    let practice = after(exercise, pupil, questions);
    let biases = practice.keeper().scorer().biases();
    biases.iter().map(Bias::words).collect()
}

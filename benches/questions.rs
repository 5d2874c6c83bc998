//! How long questions take to make: median and 99th percentile over 10,000 of every
//! built-in exercise together.

use std::time::Instant;

use plagal::devices::Catalogue;
use plagal::exercise::{Exercise, Known};
use plagal::host::library::EXERCISES;
use plagal::quiz::{Aim, Drill, Hardness, Question, question_seed};
use plagal::synth;
use plagal::theory::BareSix;

const QUESTIONS: u32 = 10_000;

fn main() {
    let catalogue = Catalogue::built_in();
    let sounds: Vec<&str> = synth::built_in()
        .iter()
        .map(|sound| sound.id.as_str())
        .collect();
    let known = Known {
        catalogue: &catalogue,
        sounds: &sounds,
    };
    let drills: Vec<_> = EXERCISES
        .iter()
        .filter_map(|(_, text)| Exercise::read(text, known).ok())
        .map(|exercise| exercise.drill(BareSix::AddedSixth))
        .collect();
    let middling = Hardness {
        inversion: 0.2,
        texture: 0.2,
        tempo: 0.2,
    };
    let aimed = Aim {
        hardness: Some(middling),
        ..Aim::default()
    };
    time("by chance", &Aim::default(), &drills, &catalogue);
    time("aimed", &aimed, &drills, &catalogue);
}

fn time(name: &str, aim: &Aim, drills: &[Drill], catalogue: &Catalogue) {
    let mut times: Vec<f64> = (0..QUESTIONS)
        .map(|index| {
            let drill = &drills[index as usize % drills.len()];
            let wanted = &drill.devices[index as usize / drills.len() % drill.devices.len()];
            let start = Instant::now();
            let seed = question_seed(1, index);
            let question = Question::aimed(drill, catalogue, wanted, aim, seed);
            let took = start.elapsed().as_secs_f64() * 1000.0;
            assert!(question.is_ok(), "{}: {wanted}", drill.exercise);
            took
        })
        .collect();
    times.sort_by(f64::total_cmp);
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize];
    println!(
        "{QUESTIONS} questions {name}: median {:.3} ms, 99th percentile {:.3} ms, longest {:.3} ms",
        at(0.5),
        at(0.99),
        at(1.0)
    );
}

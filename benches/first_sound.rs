//! From the press that begins a drill to the first sound handed to the device, with a
//! real sound server (`.ci/null-sink.sh run cargo bench --bench first_sound`).

use std::sync::Arc;
use std::time::{Duration, Instant};

use plagal::devices::Catalogue;
use plagal::exercise::{Exercise, Known};
use plagal::host::clock;
use plagal::host::library::EXERCISES;
use plagal::host::player::{Player, Settings, Status};
use plagal::practice::{Keeper, Performer, Person, Practice, Start};
use plagal::quiz::{Event, Hearing};
use plagal::scorer::Wishes;
use plagal::synth;
use plagal::theory::BareSix;

const RUNS: u64 = 40;

fn main() {
    let catalogue = Arc::new(Catalogue::built_in());
    let sounds: Vec<&str> = synth::built_in()
        .iter()
        .map(|sound| sound.id.as_str())
        .collect();
    let known = Known {
        catalogue: &catalogue,
        sounds: &sounds,
    };
    let (_, text) = EXERCISES[0];
    let Ok(exercise) = Exercise::read(text, known) else {
        panic!("the exercise is sound")
    };
    let person = Person {
        learner: "mira",
        journal: None,
        rescue: &[],
    };
    let (keeper, _) = Keeper::open(&person, &catalogue, 0);
    let mut player = Player::start(Settings::default());
    if !matches!(player.wait(Duration::from_secs(10)), Status::Open(_)) {
        println!("skipped: no sound device ({:?})", player.status());
        return;
    }
    let performer = Performer::new(player, synth::built_in().to_vec(), 440.0);
    let mut practice = Practice::new(Arc::clone(&catalogue), keeper, performer);
    let (mut begun, mut again) = (Vec::new(), Vec::new());
    for seed in 0..RUNS {
        let start = Start {
            drill: exercise.drill(BareSix::AddedSixth),
            wishes: Wishes::default(),
            seed,
        };
        let pressed = Instant::now();
        practice.begin(start);
        begun.push(until_sound(&mut practice, pressed));
        // Long enough for the line to be rendered too.
        quiet(&mut practice, Duration::from_millis(400));
        let (hearing, now) = (Hearing::Line, clock::now());
        let pressed = Instant::now();
        practice.step(Event::Hear { hearing, now });
        again.push(until_sound(&mut practice, pressed));
        quiet(&mut practice, Duration::from_millis(120));
    }
    tell("drills begun", begun);
    tell("lines heard again", again);
}

/// Milliseconds from the press until the device has taken the first frames.
fn until_sound(practice: &mut Practice, pressed: Instant) -> f64 {
    while practice
        .performer()
        .position()
        .is_none_or(|position| position.ticks == 0)
    {
        practice.poll();
        std::hint::spin_loop();
    }
    pressed.elapsed().as_secs_f64() * 1000.0
}

fn quiet(practice: &mut Practice, time: Duration) {
    practice.performer_mut().stop();
    let until = Instant::now() + time;
    while Instant::now() < until {
        practice.poll();
        std::thread::sleep(Duration::from_millis(5));
    }
}

fn tell(what: &str, mut times: Vec<f64>) {
    times.sort_by(f64::total_cmp);
    println!(
        "{} {what}: press to the first frames taken by the device, median {:.1} ms, longest {:.1} ms",
        times.len(),
        times[times.len() / 2],
        times[times.len() - 1]
    );
}

//! A programme as a drill plays it, heard on a sound server: loops and crossfades.

use std::time::Duration;

use crate::null_sink::{Ear, RATE, wait_for};
use plagal::arranging::{Arrangement, Passage, Texture, arrange};
use plagal::host::player::{BufferSize, Level, Player, Settings, Status};
use plagal::practice::Performer;
use plagal::quiz::{Part, Programme};
use plagal::synth;
use plagal::theory::{BareSix, Line, Meter, TICKS_PER_BEAT};

const SOUND: &str = "piano";
/// Frames in which a jump fades out and in again: 8 ms each.
const FADE: usize = 8 * RATE as usize / 1000;

fn performer() -> Performer {
    let mut player = Player::start(Settings {
        level: Level::FULL,
        buffer: BufferSize::Frames1024,
        ..Settings::default()
    });
    let status = player.wait(Duration::from_secs(10)).clone();
    assert!(matches!(status, Status::Open(_)), "{status:?}");
    Performer::new(player, synth::built_in().to_vec(), 440.0)
}

fn passage(numerals: &str) -> Passage {
    let line = Line::read(numerals, Meter::FourFour, BareSix::AddedSixth).expect("a line");
    let request = Arrangement {
        texture: Texture::HeldChords,
        tempo: 160.0,
        variation: 0,
    };
    arrange(&line, "G".parse().expect("a key"), &request).expect("chords near the key")
}

/// What a performer renders of a passage.
fn rendered(passage: &Passage) -> Vec<f32> {
    let sound = synth::find(SOUND).expect("a built-in sound");
    synth::render(passage, sound, &synth::Settings::default()).interleaved
}

fn programme(part: Part, takes_up: bool) -> Programme {
    Programme {
        parts: vec![part],
        sound: SOUND.to_owned(),
        takes_up,
    }
}

fn once(passage: Passage) -> Part {
    Part {
        passage,
        is_line: true,
        repeats: None,
    }
}

/// The largest step from one frame to the next on either side.
fn step(samples: &[f32]) -> f32 {
    let pairs = samples.iter().zip(&samples[2..]);
    pairs.map(|(a, b)| (a - b).abs()).fold(0.0, f32::max)
}

/// Hears until there are `seconds` more.
fn hear(ear: &Ear, performer: &mut Performer, seconds: f64) {
    let wanted = ear.frames() + (seconds * f64::from(RATE)) as usize;
    wait_for("more sound", || {
        performer.poll();
        ear.frames() > wanted
    });
}

/// The frame of `heard` at which `wanted` begins, and how well the two agree.
fn found(wanted: &[f32], heard: &[f32], around: usize) -> (usize, f64) {
    let places = around.saturating_sub(600)..around + 600;
    let fits = |place: &usize| heard.len() >= 2 * place + wanted.len();
    let agreed = places.filter(fits).map(|place| {
        let stretch = &heard[2 * place..2 * place + wanted.len()];
        (place, agreement(wanted, stretch))
    });
    agreed.fold(
        (0, 0.0),
        |best, next| if next.1 > best.1 { next } else { best },
    )
}

fn agreement(a: &[f32], b: &[f32]) -> f64 {
    let dot = |a: &[f32], b: &[f32]| -> f64 {
        let products = a.iter().zip(b).map(|(a, b)| f64::from(*a) * f64::from(*b));
        products.sum()
    };
    dot(a, b) / (dot(a, a) * dot(b, b)).sqrt().max(f64::MIN_POSITIVE)
}

#[test]
#[ignore = "needs a sound server: .ci/null-sink.sh run cargo test --test player -- --ignored --test-threads=1"]
fn a_repeated_stretch_comes_again_to_the_frame_without_a_click() {
    let mut performer = performer();
    let whole = passage("I | IV | V7 | I");
    let samples = rendered(&whole);
    let bar = 4 * TICKS_PER_BEAT;
    let frame = |ticks| (whole.seconds(ticks) * f64::from(RATE)) as usize;
    let (from, to) = (frame(bar), frame(3 * bar));
    let ear = Ear::listen();
    ear.clear();
    let repeats = Some(bar..3 * bar);
    performer.play(programme(
        Part {
            repeats,
            ..once(whole)
        },
        false,
    ));
    wait_for("the stretch", || {
        performer.poll();
        performer.position().is_some()
    });
    assert!(performer.is_repeating());
    hear(
        &ear,
        &mut performer,
        3.5 * (to - from) as f64 / f64::from(RATE),
    );
    performer.go_on();
    hear(&ear, &mut performer, 6.0);
    assert!(!performer.is_busy(), "it went on to the end");

    let heard = ear.samples();
    let round = &samples[2 * (from + FADE)..2 * (to - FADE)];
    let first = heard.iter().position(|x| x.abs() > 1e-4).expect("sound") / 2;
    let (mut at, good) = found(round, &heard, first + FADE);
    assert!(good > 0.999, "the first round: {good}");
    for number in 2..=3 {
        let (next, good) = found(round, &heard, at + to - from);
        println!(
            "round {number}: {} frames after the last, correlation {good:.6}",
            next - at
        );
        assert_eq!(next - at, to - from, "round {number}");
        assert!(good > 0.999, "round {number}: {good}");
        // The seam itself, with both fades.
        let seam = step(&heard[2 * (next - 4 * FADE)..2 * (next + 2 * FADE)]);
        let attack = step(&samples);
        println!("largest step {seam:.4} at the seam, {attack:.4} in the sound itself");
        assert!(
            seam <= attack,
            "a step of {seam} where the sound has {attack}"
        );
        at = next;
    }
    // It may have gone round once more before it was let go.
    let (next, good) = found(round, &heard, at + to - from);
    if good > 0.999 {
        at = next;
    }
    let onwards = &samples[2 * (from + FADE)..2 * (to + RATE as usize)];
    let (_, good) = found(onwards, &heard, at);
    println!("on to the end: correlation {good:.6}");
    assert!(good > 0.999, "what follows the stretch: {good}");
}

#[test]
#[ignore = "needs a sound server: .ci/null-sink.sh run cargo test --test player -- --ignored --test-threads=1"]
fn an_answer_takes_up_the_line_where_it_is() {
    let mut performer = performer();
    let (truth, answer) = (passage("I | IV | V7 | I"), passage("I | ii | V7 | I"));
    let (before, after) = (rendered(&truth), rendered(&answer));
    let ear = Ear::listen();
    ear.clear();
    performer.play(programme(once(truth), false));
    let ticks = |performer: &Performer| performer.position().map_or(0, |at| at.ticks);
    wait_for("the second bar", || {
        performer.poll();
        ticks(&performer) > 5 * TICKS_PER_BEAT
    });
    performer.play(programme(once(answer), true));
    hear(&ear, &mut performer, 7.5);
    assert!(!performer.is_busy(), "it went on to the end");

    let heard = ear.samples();
    let second = RATE as usize;
    let first = |samples: &[f32]| samples.iter().position(|x| x.abs() > 1e-3).expect("sound") / 2;
    let guess = first(&heard).saturating_sub(first(&before));
    let opening = &before[..2 * second];
    let (start, good) = found(opening, &heard, guess);
    assert!(good > 0.999, "the line: {good}");
    let ending = &after[2 * 3 * second..2 * 5 * second];
    let (there, good) = found(ending, &heard, start + 3 * second);
    println!(
        "the answer {} frames from its place, correlation {good:.6}",
        there as i64 - (start + 3 * second) as i64
    );
    assert_eq!(there, start + 3 * second, "it stands where the line stood");
    assert!(good > 0.999, "the answer: {good}");
    let crossing = step(&heard[2 * start..2 * (start + 3 * second)]);
    let attack = step(&before).max(step(&after));
    println!("largest step {crossing:.4} across, {attack:.4} in the sounds themselves");
    assert!(crossing <= attack, "a step of {crossing}");
}

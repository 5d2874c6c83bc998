//! What is played is what comes out of the sound frame by frame.

use std::sync::Arc;
use std::time::Duration;

use crate::null_sink::{Ear, RATE, correlation, sweeps, wait_for};
use plagal::host::player::{
    BufferSize, Choice, Cue, Level, Motion, Player, Region, Settings, Status, devices,
};

fn player(settings: Settings) -> Player {
    let mut player = Player::start(settings);
    let status = player.wait(Duration::from_secs(10)).clone();
    assert!(matches!(status, Status::Open(_)), "{status:?}");
    player
}

#[test]
#[ignore = "needs a sound server: .ci/null-sink.sh run cargo test --test player -- --ignored --test-threads=1"]
fn a_known_signal_arrives_unchanged() {
    let mut player = player(Settings {
        level: Level::FULL,
        ..Settings::default()
    });
    assert_eq!(player.rate(), RATE);
    let samples = sweeps(2.5);
    let ear = Ear::listen();
    ear.clear();
    let cue = player
        .play(Cue::new(Arc::clone(&samples), RATE))
        .expect("a device");
    wait_for("the end", || player.has_ended(cue));
    let wanted = ear.frames() + RATE as usize / 2;
    wait_for("the last frames", || ear.frames() > wanted);
    let found = correlation(&samples, &ear.samples());
    println!("correlation of what was heard with what was played: {found:.6}");
    assert!(found > 0.999, "{found}");
    assert_eq!(Arc::strong_count(&samples), 2);
    assert_eq!(player.poll(), None);
    assert_eq!(Arc::strong_count(&samples), 1, "given back and freed");
}

#[test]
#[ignore = "needs a sound server: .ci/null-sink.sh run cargo test --test player -- --ignored --test-threads=1"]
fn a_stopped_tone_leaves_no_click() {
    let mut player = player(Settings {
        level: Level::FULL,
        buffer: BufferSize::Frames512,
        ..Settings::default()
    });
    let tone: Arc<[f32]> = [0.5; 2].repeat(3 * RATE as usize).into();
    let ear = Ear::listen();
    ear.clear();
    let region = Region::new(4800..14_400);
    player
        .play(Cue::new(tone, RATE).repeating(region))
        .expect("a device");
    let frame = |player: &Player| player.playhead().map_or(0, |head| head.frame);
    wait_for("the tone", || frame(&player) > 4800);
    wait_for("its repetition", || frame(&player) < 6000);
    player.stop().expect("a device");
    let idle = |player: &Player| player.playhead().map(|head| head.motion) == Some(Motion::Idle);
    wait_for("the stop", || idle(&player));
    let wanted = ear.frames() + RATE as usize / 2;
    wait_for("the last frames", || ear.frames() > wanted);
    let heard = ear.samples();
    let loudest = heard.iter().fold(0f32, |most, x| most.max(x.abs()));
    let steps = heard.iter().zip(&heard[2..]).map(|(a, b)| (a - b).abs());
    let step = steps.fold(0f32, f32::max);
    println!("loudest sample {loudest}, largest step {step}");
    assert!(loudest > 0.49, "nothing was heard");
    // The steepest fade: 1.5 / 384 of the tone a frame; a cut would be 0.5.
    assert!(step < 0.005, "a step of {step}");
}

#[test]
#[ignore = "needs a sound server: .ci/null-sink.sh run cargo test --test player -- --ignored --test-threads=1"]
fn devices_are_listed_and_can_be_chosen() {
    let list = devices().expect("a server");
    let sink = list.iter().find(|device| device.id.ends_with(":ci"));
    let id = sink.expect("the null sink").id.clone();
    let mut player = player(Settings {
        choice: Choice::Device(id.clone()),
        ..Settings::default()
    });
    player.choose(Choice::Device(id.clone()), BufferSize::Frames4096);
    let status = player.wait(Duration::from_secs(10)).clone();
    let Status::Open(output) = status else {
        panic!("{status:?}");
    };
    assert_eq!((output.device.id, output.block), (id, Some(4096)));
    player.choose(
        Choice::Device("pulseaudio:missing".to_owned()),
        BufferSize::default(),
    );
    let status = player.wait(Duration::from_secs(10));
    let text = format!("{status:?}");
    assert!(text.contains("NoSuchDevice"), "{text}");
}

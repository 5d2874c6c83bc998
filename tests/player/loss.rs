//! The sound server dies under a phrase and comes back.

use std::sync::Arc;
use std::time::Duration;

use crate::null_sink::{Ear, RATE, correlation, script, server, sweeps, wait_for};
use plagal::host::player::{Cue, Fault, Level, Notice, Player, Refusal, Settings, Status};

#[test]
#[ignore = "needs a sound server: .ci/null-sink.sh run cargo test --test player -- --ignored --test-threads=1"]
fn the_program_goes_on_without_its_server_and_plays_again_with_it() {
    let server = server();
    let mut player = Player::start(Settings {
        level: Level::FULL,
        ..Settings::default()
    });
    player.wait(Duration::from_secs(10));
    let samples = sweeps(1.5);
    let cue = || Cue::new(Arc::clone(&samples), RATE);
    player.play(cue()).expect("a device");
    let frame = |player: &Player| player.playhead().map_or(0, |head| head.frame);
    wait_for("the first frames", || frame(&player) > 5000);

    script("stop", &server);
    let mut notices = Vec::new();
    wait_for("word of the loss", || {
        notices.extend(player.poll());
        notices.contains(&Notice::Lost)
    });
    assert!(matches!(player.status(), Status::Silent(_)));
    assert!(matches!(player.play(cue()), Err(Refusal::Silent(_))));
    assert_eq!(player.playhead(), None);
    wait_for("the reason", || {
        notices.extend(player.poll());
        notices
            .iter()
            .any(|notice| matches!(notice, Notice::Failed(_)))
    });
    println!("said: {notices:?}");
    assert!(!notices.contains(&Notice::Failed(Fault::TurnedOff)));

    script("start", &server);
    wait_for("the device again", || {
        notices.extend(player.poll());
        matches!(player.status(), Status::Open(_))
    });
    let ear = Ear::listen();
    ear.clear();
    let again = player.play(cue()).expect("the device again");
    wait_for("the end", || player.has_ended(again));
    let wanted = ear.frames() + RATE as usize / 2;
    wait_for("the last frames", || ear.frames() > wanted);
    let found = correlation(&samples, &ear.samples());
    assert!(found > 0.999, "{found}");
}

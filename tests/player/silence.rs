//! Where there is no device, one value says so and nothing is written into the screen.

use std::process::Command;
use std::time::Duration;

use plagal::host::player::{Fault, Player, Refusal, Settings, Status};

/// Set for the copy of this test that finds no device.
const ALONE: &str = "PLAGAL_TEST_WITHOUT_DEVICE";

#[test]
fn silence_by_wish_is_told_and_kept() {
    let mut player = Player::start(Settings::off());
    let status = player.wait(Duration::from_secs(10)).clone();
    let expected = if cfg!(feature = "audio") {
        Fault::TurnedOff
    } else {
        Fault::BuiltWithoutSound
    };
    assert_eq!(status, Status::Silent(expected.clone()));
    assert_eq!(player.stop(), Err(Refusal::Silent(expected)));
    assert_eq!(player.playhead(), None);
}

#[test]
#[cfg(target_os = "linux")]
fn without_a_device_nothing_reaches_standard_error() {
    if std::env::var_os(ALONE).is_some() {
        let mut player = Player::start(Settings::default());
        let status = player.wait(Duration::from_secs(10)).clone();
        let Status::Silent(fault) = &status else {
            panic!("{status:?}");
        };
        println!("the one error: {fault}");
        // Long enough for a second attempt.
        std::thread::sleep(Duration::from_millis(1500));
        return;
    }
    let me = std::env::current_exe().expect("a path to this test");
    let output = Command::new(me)
        .args([
            "--exact",
            "silence::without_a_device_nothing_reaches_standard_error",
            "--nocapture",
        ])
        .env(ALONE, "1")
        .env("PULSE_SERVER", "unix:/nonexistent/native")
        .env("ALSA_CONFIG_PATH", "/nonexistent/alsa.conf")
        .env_remove("XDG_RUNTIME_DIR")
        .env_remove("PULSE_RUNTIME_PATH")
        .output()
        .expect("this test runs again");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{said}");
    assert!(said.contains("the one error: "), "{said}");
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}

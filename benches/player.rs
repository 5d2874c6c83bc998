//! What the player costs on the audio thread, and with a sound server
//! (`.ci/null-sink.sh run cargo bench --bench player`) from the press to the first frame
//! heard.

use std::sync::Arc;
use std::time::{Duration, Instant};

use plagal::host::player::{BufferSize, Choice, Cue, CueId, Level, Player, Settings, link};

#[path = "../tests/player/null_sink.rs"]
mod null_sink;

use null_sink::{Ear, RATE, wait_for};

/// Frames a block.
const BLOCK: usize = 1024;

/// One block of a cue that sounds; 1024 frames last 21 ms.
#[divan::bench]
fn a_block_of_1024_frames(bencher: divan::Bencher) {
    let (mut remote, mut mixer) = link(RATE, Level::START);
    let samples: Arc<[f32]> = vec![0.25; 2 * 600 * RATE as usize].into();
    remote
        .play(CueId::numbered(1), Cue::new(samples, RATE))
        .expect("room for one");
    let mut block = [0.0; 2 * BLOCK];
    bencher.bench_local(|| mixer.fill(&mut block));
}

/// From the call of `play` to the first frame heard, a press after another.
fn latencies(buffer: BufferSize, presses: usize) -> Vec<Duration> {
    let mut player = Player::start(Settings {
        choice: Choice::Default,
        buffer,
        level: Level::FULL,
    });
    player.wait(Duration::from_secs(10));
    let ear = Ear::listen();
    let tone: Arc<[f32]> = vec![0.5; 2 * RATE as usize / 10].into();
    (0..presses)
        .map(|press| {
            // Not in step with the device's blocks.
            std::thread::sleep(Duration::from_millis(300 + 7 * press as u64));
            ear.clear();
            let pressed = Instant::now();
            let cue = player.play(Cue::new(Arc::clone(&tone), RATE));
            let cue = cue.expect("a device");
            wait_for("the tone", || ear.onset(0.01).is_some());
            let heard = ear.onset(0.01).expect("just seen");
            wait_for("the end", || player.has_ended(cue));
            heard.saturating_duration_since(pressed)
        })
        .collect()
}

fn main() {
    divan::main();
    if std::env::var_os("PLAGAL_NULL_SINK").is_none() {
        println!("no latencies: run this bench with .ci/null-sink.sh run");
        return;
    }
    for buffer in BufferSize::ALL {
        let mut times = latencies(buffer, 15);
        times.sort();
        println!(
            "press to first frame heard, blocks of {}: median {:.1?}, worst {:.1?}",
            buffer.frames(),
            times[times.len() / 2],
            times[times.len() - 1]
        );
    }
}

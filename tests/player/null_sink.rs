//! A sound server without a card, and an ear on it. `.ci/null-sink.sh run` makes one.
#![allow(
    dead_code,
    reason = "each test that includes this file uses a part of it"
)]

use std::io::Read;
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex};
use std::thread::{JoinHandle, sleep};
use std::time::{Duration, Instant};

/// The server's rate, frames a second.
pub(crate) const RATE: u32 = 48_000;

/// The folder of the running server.
pub(crate) fn server() -> String {
    std::env::var("PLAGAL_NULL_SINK").expect("run by .ci/null-sink.sh, which starts a server")
}

/// Runs the script on `server`; panics if it fails.
pub(crate) fn script(command: &str, server: &str) {
    let status = Command::new("bash")
        .args([
            concat!(env!("CARGO_MANIFEST_DIR"), "/.ci/null-sink.sh"),
            command,
            server,
        ])
        .status();
    assert!(status.expect("bash runs").success(), "null-sink {command}");
}

/// Hears what the server plays.
pub(crate) struct Ear {
    recorder: Child,
    reader: Option<JoinHandle<()>>,
    heard: Arc<Mutex<Heard>>,
}

#[derive(Default)]
struct Heard {
    samples: Vec<f32>,
    /// When the last of them arrived.
    at: Option<Instant>,
}

impl Ear {
    /// Listens from now on; returns once sound (or silence) arrives steadily.
    pub(crate) fn listen() -> Self {
        let mut recorder = Command::new("parec")
            .args([
                "-d",
                "ci.monitor",
                "--latency-msec=10",
                "--format=float32le",
                "--rate=48000",
                "--channels=2",
                "--raw",
            ])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("parec runs");
        let mut sound = recorder.stdout.take().expect("piped");
        let heard = Arc::new(Mutex::new(Heard::default()));
        let kept = Arc::clone(&heard);
        let reader = std::thread::spawn(move || {
            let mut bytes = [0; 4096];
            let mut rest = Vec::new();
            while let Ok(count @ 1..) = sound.read(&mut bytes) {
                rest.extend_from_slice(&bytes[..count]);
                let whole = rest.len() / 8 * 8;
                let mut kept = kept.lock().expect("no reader panics");
                let (samples, _) = rest[..whole].as_chunks::<4>();
                kept.samples
                    .extend(samples.iter().map(|bytes| f32::from_le_bytes(*bytes)));
                kept.at = Some(Instant::now());
                rest.drain(..whole);
            }
        });
        let ear = Self {
            recorder,
            reader: Some(reader),
            heard,
        };
        // An idle null sink works in blocks of two seconds; wait until it is awake.
        wait_for("the recorder", || ear.frames() > RATE as usize / 2);
        ear
    }

    /// Stereo frames heard so far.
    pub(crate) fn frames(&self) -> usize {
        self.heard.lock().expect("no reader panics").samples.len() / 2
    }

    /// Forgets what was heard.
    pub(crate) fn clear(&self) {
        self.heard.lock().expect("no reader panics").samples.clear();
    }

    /// All that was heard, interleaved.
    pub(crate) fn samples(&self) -> Vec<f32> {
        self.heard.lock().expect("no reader panics").samples.clone()
    }

    /// When the first frame above `threshold` was heard, if one was.
    pub(crate) fn onset(&self, threshold: f32) -> Option<Instant> {
        let heard = self.heard.lock().expect("no reader panics");
        let first = heard.samples.iter().position(|x| x.abs() > threshold)?;
        let after = (heard.samples.len() - first) as f64 / 2.0 / f64::from(RATE);
        Some(heard.at? - Duration::from_secs_f64(after))
    }
}

impl Drop for Ear {
    fn drop(&mut self) {
        let _ = self.recorder.kill();
        let _ = self.recorder.wait();
        if let Some(reader) = self.reader.take() {
            let _ = reader.join();
        }
    }
}

/// Waits for something that must come; panics after twenty seconds.
pub(crate) fn wait_for(what: &str, mut come: impl FnMut() -> bool) {
    let limit = Instant::now() + Duration::from_secs(20);
    while !come() {
        assert!(Instant::now() < limit, "{what} did not come");
        sleep(Duration::from_millis(5));
    }
}

/// A sweep on the left, another on the right, found again at one place only; the last
/// 20 ms fade, so that the player's own fade changes little.
pub(crate) fn sweeps(seconds: f32) -> Arc<[f32]> {
    let frames = (seconds * RATE as f32) as usize;
    let sweep = |n: usize, from: f64, to: f64| {
        let t = n as f64 / f64::from(RATE);
        let rise = (to - from) / f64::from(seconds);
        let fade = (frames - n) as f64 / (0.02 * f64::from(RATE));
        0.4 * fade.min(1.0) * (std::f64::consts::TAU * (from + 0.5 * rise * t) * t).sin()
    };
    (0..frames)
        .flat_map(|n| [sweep(n, 200.0, 4000.0), sweep(n, 3000.0, 150.0)])
        .map(|sample| sample as f32)
        .collect()
}

/// The best correlation of `wanted` (stereo) with any stretch of `heard`, 0 to 1: at the
/// first sound and some frames about it.
pub(crate) fn correlation(wanted: &[f32], heard: &[f32]) -> f64 {
    let frame_of = |samples: &[f32]| samples.iter().position(|x| x.abs() > 1e-3);
    let (Some(first), Some(found)) = (frame_of(wanted), frame_of(heard)) else {
        return 0.0;
    };
    let start = (found / 2).saturating_sub(first / 2);
    (start.saturating_sub(40)..start + 40)
        .filter_map(|frame| heard.get(2 * frame..2 * frame + wanted.len()))
        .map(|stretch| normalised(wanted, stretch))
        .fold(0.0, f64::max)
}

fn normalised(a: &[f32], b: &[f32]) -> f64 {
    let dot = |a: &[f32], b: &[f32]| -> f64 {
        a.iter()
            .zip(b)
            .map(|(a, b)| f64::from(*a) * f64::from(*b))
            .sum()
    };
    dot(a, b) / (dot(a, a) * dot(b, b)).sqrt().max(f64::MIN_POSITIVE)
}

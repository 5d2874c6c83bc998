//! The thread that opens the device, notices when it dies and opens it again. Only here
//! is anything waited for.

use std::any::Any;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender};
use std::time::Duration;

use super::playhead::Gauge;
use super::{Fault, Output, Remote, Settings};

/// Between two looks at the frame counter.
const LOOK: Duration = Duration::from_millis(50);

/// So many looks without a new frame are a loss: half a second, far beyond any block.
/// Looks and not the clock are counted, so a stopped process does not count as one.
const LOOKS: u32 = 10;

/// A device that wakes may fill its buffers and then take some seconds over them.
const WAKING_LOOKS: u32 = 100;

/// Frames after which a device counts as awake: more than any buffer holds.
const AWAKE: u64 = 16_384;

/// Between two attempts to find a device.
const RETRY: Duration = Duration::from_secs(1);

/// Time for a last fade to leave the device's buffers.
const FAREWELL: Duration = Duration::from_millis(200);

/// An open device with a mixer on it.
pub(super) struct Opened {
    pub(super) output: Output,
    pub(super) remote: Remote,
    /// Set by the device when it can never sound again.
    pub(super) dead: Arc<AtomicBool>,
    /// Sounds until dropped.
    pub(super) stream: Box<dyn Any + Send>,
}

/// What the player asks of the thread. It ends when the player is gone.
pub(super) enum WatchRequest {
    Open(Settings),
}

/// What the thread tells the player.
pub(super) enum WatchEvent {
    Opened(Output, Remote),
    Lost,
    Failed(Fault),
}

/// Why watching an open device ended.
enum End {
    Lost,
    Reopen(Settings),
    Closed,
}

/// Keeps a device open by `open` until the player is gone.
pub(super) fn watch(
    mut open: impl FnMut(&Settings) -> Result<Opened, Fault>,
    mut settings: Settings,
    requests: &Receiver<WatchRequest>,
    events: &Sender<WatchEvent>,
) {
    let mut told = None;
    loop {
        match open(&settings) {
            Ok(opened) => {
                told = None;
                let gauge = opened.remote.gauge();
                let tell = WatchEvent::Opened(opened.output, opened.remote);
                if events.send(tell).is_err() {
                    return;
                }
                let end = stay(&gauge, &opened.dead, requests);
                release(opened.stream);
                match end {
                    End::Closed => return,
                    End::Reopen(other) => settings = other,
                    End::Lost => {
                        if events.send(WatchEvent::Lost).is_err() {
                            return;
                        }
                    }
                }
            }
            Err(fault) => {
                let permanent = fault.is_permanent();
                if told.as_ref() != Some(&fault) {
                    if events.send(WatchEvent::Failed(fault.clone())).is_err() {
                        return;
                    }
                    told = Some(fault);
                }
                match pause(requests, permanent) {
                    Ok(Some(other)) => {
                        settings = other;
                        told = None;
                    }
                    Ok(None) => {}
                    Err(Gone) => return,
                }
            }
        }
    }
}

/// The player is gone.
struct Gone;

/// Waits for a request, or for the next attempt unless that could not help.
fn pause(requests: &Receiver<WatchRequest>, forever: bool) -> Result<Option<Settings>, Gone> {
    if forever {
        let WatchRequest::Open(settings) = requests.recv().map_err(|_| Gone)?;
        return Ok(Some(settings));
    }
    match requests.recv_timeout(RETRY) {
        Ok(WatchRequest::Open(settings)) => Ok(Some(settings)),
        Err(RecvTimeoutError::Timeout) => Ok(None),
        Err(RecvTimeoutError::Disconnected) => Err(Gone),
    }
}

fn stay(gauge: &Gauge, dead: &AtomicBool, requests: &Receiver<WatchRequest>) -> End {
    let mut frames = gauge.frames();
    let mut idle = 0;
    loop {
        match requests.recv_timeout(LOOK) {
            Ok(WatchRequest::Open(settings)) => {
                std::thread::sleep(FAREWELL);
                return End::Reopen(settings);
            }
            Err(RecvTimeoutError::Disconnected) => return End::Closed,
            Err(RecvTimeoutError::Timeout) => {}
        }
        let now = gauge.frames();
        idle = if now == frames { idle + 1 } else { 0 };
        frames = now;
        let patience = if now < AWAKE { WAKING_LOOKS } else { LOOKS };
        if idle >= patience || dead.load(Ordering::Relaxed) {
            return End::Lost;
        }
    }
}

/// Drops a stream on a thread of its own: a dead server may never answer.
fn release(stream: Box<dyn Any + Send>) {
    std::thread::spawn(move || drop(stream));
}

//! What the rest of the program holds: commands in, playhead and notices out.

use std::fmt;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, TryRecvError, channel};
use std::time::{Duration, Instant};

use super::watch::{Event, Opened, Request, watch};
use super::{
    BufferSize, Choice, Cue, CueId, Fault, Level, Motion, Output, Playhead, Refusal, Region,
    Remote, Settings, device,
};

/// Rendering goes at this rate until a device has told its own.
const USUAL_RATE: u32 = 48_000;

/// How long the program waits at its end for the last fade to be heard.
const FAREWELL: Duration = Duration::from_millis(150);

/// Whether sound comes out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Status {
    Opening,
    Open(Output),
    /// No sound, and why; unless the reason is permanent a device is still looked for.
    Silent(Fault),
}

/// Something the user may want to know.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// A device opened; what was rendered at another rate must be rendered again.
    Opened(Output),
    /// The device died under the sound. It is being looked for again.
    Lost,
    Failed(Fault),
}

impl fmt::Display for Notice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Opened(output) => write!(f, "sound on {}", output.device.name),
            Self::Lost => f.write_str("the sound device is gone; looking for it again"),
            Self::Failed(fault) => fault.fmt(f),
        }
    }
}

/// Plays buffers. No method waits, except [`Self::wait`] and the end of the program while
/// something still sounds.
#[derive(Debug)]
pub struct Player {
    settings: Settings,
    status: Status,
    remote: Option<Remote>,
    rate: u32,
    last: CueId,
    requests: Sender<Request>,
    events: Receiver<Event>,
}

impl Player {
    /// Begins to open the device that `settings` name.
    #[must_use]
    pub fn start(settings: Settings) -> Self {
        Self::start_with(settings, device::open)
    }

    fn start_with(
        settings: Settings,
        open: impl FnMut(&Settings) -> Result<Opened, Fault> + Send + 'static,
    ) -> Self {
        let (requests, asked) = channel();
        let (tell, events) = channel();
        let first = settings.clone();
        let thread = std::thread::Builder::new()
            .name("sound".to_owned())
            .spawn(move || watch(open, first, &asked, &tell));
        let status = match thread {
            Ok(_) => Status::Opening,
            Err(error) => Status::Silent(Fault::System(error.to_string())),
        };
        Self {
            settings,
            status,
            remote: None,
            rate: USUAL_RATE,
            last: CueId::NONE,
            requests,
            events,
        }
    }

    /// The next thing the user may want to know. Call until `None`, at every turn of the
    /// event loop; it also frees buffers that have been played.
    pub fn poll(&mut self) -> Option<Notice> {
        if let Some(remote) = &mut self.remote {
            remote.collect();
        }
        match self.events.try_recv() {
            Ok(event) => Some(self.take(event)),
            Err(TryRecvError::Empty | TryRecvError::Disconnected) => None,
        }
    }

    /// Waits until it is known whether there is sound, at most `limit`.
    pub fn wait(&mut self, limit: Duration) -> &Status {
        let until = Instant::now() + limit;
        while self.status == Status::Opening {
            let left = until.saturating_duration_since(Instant::now());
            match self.events.recv_timeout(left) {
                Ok(event) => {
                    self.take(event);
                }
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => break,
            }
        }
        &self.status
    }

    fn take(&mut self, event: Event) -> Notice {
        match event {
            Event::Opened(output, mut remote) => {
                self.rate = output.rate;
                // The level may have been changed since the device was asked for. A fresh
                // deck has room for a command.
                let _ = remote.set_level(self.settings.level);
                self.remote = Some(remote);
                self.status = Status::Open(output.clone());
                Notice::Opened(output)
            }
            Event::Lost => {
                self.remote = None;
                self.status = Status::Silent(Fault::Lost);
                Notice::Lost
            }
            Event::Failed(fault) => {
                self.remote = None;
                self.status = Status::Silent(fault.clone());
                Notice::Failed(fault)
            }
        }
    }

    /// Whether there is sound, as of the last [`Self::poll`].
    #[must_use]
    pub fn status(&self) -> &Status {
        &self.status
    }

    /// Frames a second to render at: the device's, or the last one's.
    #[must_use]
    pub fn rate(&self) -> u32 {
        self.rate
    }

    /// Plays `cue` from its frame, fading into it whatever sounds; ends a pause.
    ///
    /// # Errors
    /// If there is no device, or the buffer does not fit it.
    pub fn play(&mut self, cue: Cue) -> Result<CueId, Refusal> {
        let id = self.last.next();
        self.remote()?.play(id, cue)?;
        self.last = id;
        Ok(id)
    }

    /// Fades to `cue` at the frame where the present one is: the same passage in another
    /// mix, say.
    ///
    /// # Errors
    /// As [`Self::play`].
    pub fn cross_to(&mut self, cue: Cue) -> Result<CueId, Refusal> {
        let id = self.last.next();
        self.remote()?.cross_to(id, cue)?;
        self.last = id;
        Ok(id)
    }

    /// Fades out and forgets the cue.
    ///
    /// # Errors
    /// If there is no device, or it has stopped taking commands.
    pub fn stop(&mut self) -> Result<(), Refusal> {
        self.remote()?.stop()
    }

    /// Fades out where it is, to go on from there.
    ///
    /// # Errors
    /// As [`Self::stop`].
    pub fn pause(&mut self) -> Result<(), Refusal> {
        self.remote()?.pause()
    }

    /// Goes on after [`Self::pause`].
    ///
    /// # Errors
    /// As [`Self::stop`].
    pub fn resume(&mut self) -> Result<(), Refusal> {
        self.remote()?.resume()
    }

    /// Goes on at `frame` of the present cue; nothing after its end.
    ///
    /// # Errors
    /// As [`Self::stop`].
    pub fn seek(&mut self, frame: u64) -> Result<(), Refusal> {
        self.remote()?.seek(frame)
    }

    /// Repeats a stretch of the present cue, or with `None` goes on past it.
    ///
    /// # Errors
    /// As [`Self::stop`].
    pub fn repeat(&mut self, region: Option<Region>) -> Result<(), Refusal> {
        self.remote()?.repeat(region)
    }

    /// Moves to `level` over some 60 ms. Kept for every device to come.
    pub fn set_level(&mut self, level: Level) {
        self.settings.level = level;
        if let Some(remote) = &mut self.remote {
            // A deck that takes no commands is about to be reported lost.
            let _ = remote.set_level(level);
        }
    }

    #[must_use]
    pub fn level(&self) -> Level {
        self.settings.level
    }

    /// Where the sound is; `None` without a device.
    #[must_use]
    pub fn playhead(&self) -> Option<Playhead> {
        self.remote.as_ref().map(Remote::playhead)
    }

    /// Whether `cue` sounded to its end.
    #[must_use]
    pub fn has_ended(&self, cue: CueId) -> bool {
        self.playhead()
            .is_some_and(|head| head.cue == cue && head.motion == Motion::Ended)
    }

    /// Opens another device, or the same one with other blocks. What sounds fades out.
    pub fn choose(&mut self, choice: Choice, buffer: BufferSize) {
        self.settings.choice = choice;
        self.settings.buffer = buffer;
        if let Ok(remote) = self.remote() {
            // If it takes no commands it is cut off, as it would be anyway.
            let _ = remote.stop();
        }
        self.remote = None;
        if self
            .requests
            .send(Request::Open(self.settings.clone()))
            .is_ok()
        {
            self.status = Status::Opening;
        }
    }

    #[must_use]
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    fn remote(&mut self) -> Result<&mut Remote, Refusal> {
        match (&mut self.remote, &self.status) {
            (Some(remote), _) => Ok(remote),
            (None, Status::Silent(fault)) => Err(Refusal::Silent(fault.clone())),
            (None, Status::Opening | Status::Open(_)) => Err(Refusal::Opening),
        }
    }
}

impl Drop for Player {
    /// Fades out what still sounds before the device is closed.
    fn drop(&mut self) {
        let sounding = self
            .playhead()
            .is_some_and(|head| head.motion == Motion::Playing);
        if sounding && self.stop().is_ok() {
            std::thread::sleep(FAREWELL);
        }
    }
}

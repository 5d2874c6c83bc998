//! What the rest of the program holds: commands in, playhead and notices out.

use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, TryRecvError, channel};
use std::time::{Duration, Instant};

use super::watch::{Opened, WatchEvent, WatchRequest, watch};
use super::{
    BufferSize, Choice, Cue, CueId, Fault, Level, Motion, Notice, Playhead, Refusal, Region,
    Remote, Settings, Status, device,
};

/// Rendering goes at this rate until a device has told its own.
const USUAL_RATE: u32 = 48_000;

/// How long the program waits at its end for the last fade to be heard.
const FAREWELL: Duration = Duration::from_millis(150);

/// Plays buffers. No method waits, except [`Self::wait`] and the end of the program while
/// something still sounds.
#[derive(Debug)]
pub struct Player {
    settings: Settings,
    status: Status,
    remote: Option<Remote>,
    rate: u32,
    last: CueId,
    requests: Sender<WatchRequest>,
    events: Receiver<WatchEvent>,
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

    fn take(&mut self, event: WatchEvent) -> Notice {
        match event {
            WatchEvent::Opened(output, mut remote) => {
                self.rate = output.rate;
                // The level may have been changed since the device was asked for. A fresh
                // mixer has room for a command.
                let _ = remote.set_level(self.settings.level);
                self.remote = Some(remote);
                self.status = Status::Open(output.clone());
                Notice::Opened(output)
            }
            WatchEvent::Lost => {
                self.remote = None;
                self.status = Status::Silent(Fault::Lost);
                Notice::Lost
            }
            WatchEvent::Failed(fault) => {
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
            // A mixer that takes no commands is about to be reported lost.
            let _ = remote.set_level(level);
        }
    }

    /// How loud it plays.
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
            .send(WatchRequest::Open(self.settings.clone()))
            .is_ok()
        {
            self.status = Status::Opening;
        }
    }

    /// How it opens the device.
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

#[cfg(test)]
mod tests {
    use std::sync::Arc;
    use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

    use super::*;
    use crate::host::player::{DeviceName, Output, link};

    /// A device that takes frames until it is told to die in silence.
    fn fake_device(rate: u32, dies: &Arc<AtomicBool>) -> Opened {
        let (remote, mut mixer) = link(rate, Level::START);
        let dies = Arc::clone(dies);
        std::thread::spawn(move || {
            let mut block = [0.0; 2 * 512];
            while !dies.load(Ordering::Relaxed) {
                mixer.fill(&mut block);
                std::thread::sleep(Duration::from_millis(2));
            }
        });
        Opened {
            output: Output {
                device: DeviceName {
                    id: "fake".to_owned(),
                    name: "Fake".to_owned(),
                },
                rate,
                channels: 2,
                block: None,
            },
            remote,
            dead: Arc::new(AtomicBool::new(false)),
            stream: Box::new(()),
        }
    }

    fn wait_for(player: &mut Player, wanted: impl Fn(&Notice) -> bool) -> Notice {
        for _ in 0..2000 {
            if let Some(notice) = player.poll()
                && wanted(&notice)
            {
                return notice;
            }
            std::thread::sleep(Duration::from_millis(5));
        }
        panic!("the notice did not come");
    }

    #[test]
    fn a_device_that_stops_taking_frames_is_lost_and_opened_again() {
        let dies = Arc::new(AtomicBool::new(false));
        let first = Arc::clone(&dies);
        let mut rates = [44_100, 48_000].into_iter();
        let mut player = Player::start_with(Settings::default(), move |_| {
            let rate = rates.next().ok_or(Fault::NoDevice)?;
            let dies = Arc::new(AtomicBool::new(false));
            Ok(fake_device(
                rate,
                if rate == 44_100 { &first } else { &dies },
            ))
        });
        player.wait(Duration::from_secs(10));
        assert_eq!(player.rate(), 44_100);
        let buffer: Arc<[f32]> = vec![0.1; 2 * 44_100].into();
        let cue = Cue::new(buffer, 44_100);
        let heard = player.play(cue.clone()).expect("a device");
        for _ in 0..2000 {
            if player.has_ended(heard) {
                break;
            }
            std::thread::sleep(Duration::from_millis(5));
        }
        assert!(player.has_ended(heard));

        dies.store(true, Ordering::Relaxed);
        wait_for(&mut player, |notice| *notice == Notice::Lost);
        wait_for(&mut player, |notice| matches!(notice, Notice::Opened(_)));
        assert_eq!(
            player.play(cue),
            Err(Refusal::Rate {
                found: 44_100,
                expected: 48_000
            })
        );
    }

    #[test]
    fn a_fault_is_told_once_and_the_device_looked_for_again() {
        let mut attempts = 0;
        let mut player = Player::start_with(Settings::default(), move |_| {
            attempts += 1;
            if attempts < 3 {
                Err(Fault::Busy)
            } else {
                Ok(fake_device(48_000, &Arc::new(AtomicBool::new(false))))
            }
        });
        let first = wait_for(&mut player, |_| true);
        assert_eq!(first, Notice::Failed(Fault::Busy));
        let second = wait_for(&mut player, |_| true);
        assert!(matches!(second, Notice::Opened(_)), "{second:?}");
    }

    #[test]
    fn silence_by_wish_is_not_tried_again_until_the_wish_changes() {
        let attempts = Arc::new(AtomicU32::new(0));
        let counted = Arc::clone(&attempts);
        let mut player = Player::start_with(Settings::off(), move |settings| {
            counted.fetch_add(1, Ordering::Relaxed);
            match settings.choice {
                Choice::Off => Err(Fault::TurnedOff),
                Choice::Default | Choice::Device(_) => {
                    Ok(fake_device(48_000, &Arc::new(AtomicBool::new(false))))
                }
            }
        });
        player.wait(Duration::from_secs(10));
        std::thread::sleep(Duration::from_millis(1300));
        assert_eq!(attempts.load(Ordering::Relaxed), 1);
        player.choose(Choice::Default, BufferSize::default());
        assert!(matches!(
            player.wait(Duration::from_secs(10)),
            Status::Open(_)
        ));
    }
}

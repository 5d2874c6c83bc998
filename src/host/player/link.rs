//! The two ends of a source: the remote that commands it and the mixer that sounds.

use std::sync::Arc;

use rtrb::{Consumer, Producer, RingBuffer};

use super::command::Command;
use super::playhead::Gauge;
use super::{Cue, CueId, Level, Mixer, Playhead, Refusal, Region};

/// Commands that may wait for the device at once.
const COMMANDS: usize = 64;

/// Each command gives back one buffer at most, and the mixer itself holds three.
const RETURNS: usize = COMMANDS + 8;

/// Commands a [`Mixer`] without waiting. Buffers it has done with come back here and are
/// freed here.
#[derive(Debug)]
pub struct Remote {
    commands: Producer<Command>,
    returned: Consumer<Arc<[f32]>>,
    gauge: Arc<Gauge>,
    rate: u32,
}

/// A mixer that makes `rate` frames a second at `level`, and its remote.
#[must_use]
pub fn link(rate: u32, level: Level) -> (Remote, Mixer) {
    let (commands, obeyed) = RingBuffer::new(COMMANDS);
    let (returns, returned) = RingBuffer::new(RETURNS);
    let gauge = Arc::new(Gauge::new());
    let mixer = Mixer::new(obeyed, returns, Arc::clone(&gauge), rate, level);
    let remote = Remote {
        commands,
        returned,
        gauge,
        rate,
    };
    (remote, mixer)
}

impl Remote {
    /// Plays `cue`, fading whatever sounds into it.
    ///
    /// # Errors
    /// If the cue does not fit the mixer, or too many commands wait.
    pub fn play(&mut self, id: CueId, cue: Cue) -> Result<(), Refusal> {
        cue.check(self.rate)?;
        let here = false;
        self.send(Command::Play { id, cue, here })
    }

    /// As [`Self::play`], but begins at the frame where the present cue is.
    ///
    /// # Errors
    /// As [`Self::play`].
    pub fn cross_to(&mut self, id: CueId, cue: Cue) -> Result<(), Refusal> {
        cue.check(self.rate)?;
        let here = true;
        self.send(Command::Play { id, cue, here })
    }

    /// # Errors
    /// If too many commands wait.
    pub fn stop(&mut self) -> Result<(), Refusal> {
        self.send(Command::Stop)
    }

    /// # Errors
    /// If too many commands wait.
    pub fn pause(&mut self) -> Result<(), Refusal> {
        self.send(Command::Pause)
    }

    /// # Errors
    /// If too many commands wait.
    pub fn resume(&mut self) -> Result<(), Refusal> {
        self.send(Command::Resume)
    }

    /// Goes on at `frame` of the present cue.
    ///
    /// # Errors
    /// If too many commands wait.
    pub fn seek(&mut self, frame: u64) -> Result<(), Refusal> {
        self.send(Command::Seek(frame))
    }

    /// Repeats `region` of the present cue, or nothing. A region that does not fit the
    /// cue is not repeated.
    ///
    /// # Errors
    /// If too many commands wait.
    pub fn repeat(&mut self, region: Option<Region>) -> Result<(), Refusal> {
        self.send(Command::Repeat(region))
    }

    /// # Errors
    /// If too many commands wait.
    pub fn set_level(&mut self, level: Level) -> Result<(), Refusal> {
        self.send(Command::Gain(level.amplitude()))
    }

    /// What sounds now, and where.
    #[must_use]
    pub fn playhead(&self) -> Playhead {
        self.gauge.playhead()
    }

    /// Frames made since the beginning, silence included.
    #[must_use]
    pub fn frames(&self) -> u64 {
        self.gauge.frames()
    }

    /// Frees the buffers that came back; how many there were.
    pub fn collect(&mut self) -> usize {
        let mut count = 0;
        while self.returned.pop().is_ok() {
            count += 1;
        }
        count
    }

    pub(super) fn gauge(&self) -> Arc<Gauge> {
        Arc::clone(&self.gauge)
    }

    fn send(&mut self, command: Command) -> Result<(), Refusal> {
        self.collect();
        self.commands
            .push(command)
            .map_err(|_full| Refusal::Crowded)
    }
}

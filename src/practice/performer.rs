//! Plays programmes: renders each passage off the audio thread, the first one first, and
//! plays them one after another.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;

use crate::arranging::Passage;
use crate::host::player::{Cue, CueId, Level, Motion, Notice, Player, Status};
use crate::quiz::{Part, Programme};
use crate::synth::{self, Sound};
use crate::theory::{TICKS_PER_BEAT, Ticks};

/// Where in a line the sound is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Position {
    /// Whether the line is sounding, and not the key that is given before it.
    pub is_line: bool,
    /// From the beginning of the passage.
    pub ticks: Ticks,
}

/// What a passage is rendered to.
#[derive(Clone, Debug, PartialEq)]
struct Wanted {
    passage: Passage,
    sound: String,
    rate: u32,
}

struct Job {
    wanted: Wanted,
    sound: Arc<Sound>,
    settings: synth::Settings,
}

type Done = (Wanted, Arc<[f32]>);

/// Renders and plays.
pub struct Performer {
    player: Player,
    sounds: Vec<Arc<Sound>>,
    a4: f64,
    jobs: Sender<Job>,
    done: Receiver<Done>,
    /// Renderings kept for replays, the latest last.
    kept: Vec<Done>,
    parts: Vec<Part>,
    sound: String,
    /// The part that is to sound next.
    next: usize,
    playing: Option<CueId>,
}

/// Renderings kept for replays.
const KEPT: usize = 12;

impl Performer {
    /// Plays on `player` with these sounds, the first of which stands in for unknown ids.
    /// A4 is at `a4` Hz, 430 to 450.
    ///
    /// # Panics
    /// If there is no sound at all, or the system has no thread left.
    #[must_use]
    pub fn new(player: Player, sounds: Vec<Sound>, a4: f64) -> Self {
        assert!(!sounds.is_empty(), "the program comes with sounds");
        let (jobs, asked) = channel::<Job>();
        let (finished, done) = channel();
        thread::Builder::new()
            .name("render".to_owned())
            .spawn(move || {
                for job in asked {
                    let samples = synth::render(&job.wanted.passage, &job.sound, &job.settings);
                    let samples: Arc<[f32]> = samples.interleaved.into();
                    if finished.send((job.wanted, samples)).is_err() {
                        return;
                    }
                }
            })
            .expect("a thread can be started");
        Self {
            player,
            sounds: sounds.into_iter().map(Arc::new).collect(),
            a4,
            jobs,
            done,
            kept: Vec::new(),
            parts: Vec::new(),
            sound: String::new(),
            next: 0,
            playing: None,
        }
    }

    /// Plays a programme from its beginning, fading out what sounds.
    pub fn play(&mut self, programme: Programme) {
        self.parts = programme.parts;
        self.sound = programme.sound;
        self.next = 0;
        self.playing = None;
        if !self.is_silent() {
            for part in 0..self.parts.len() {
                self.want(part);
            }
        }
        self.advance();
    }

    /// Fades out and forgets the programme.
    pub fn stop(&mut self) {
        self.parts.clear();
        self.next = 0;
        self.playing = None;
        // Without a device there is nothing to stop.
        let _ = self.player.stop();
    }

    /// Whether nothing can be heard, now or soon.
    #[must_use]
    pub fn is_silent(&self) -> bool {
        matches!(self.player.status(), Status::Silent(_))
    }

    /// Whether a programme sounds or is about to.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.playing.is_some() || self.next < self.parts.len()
    }

    #[must_use]
    pub fn status(&self) -> &Status {
        self.player.status()
    }

    #[must_use]
    pub fn level(&self) -> Level {
        self.player.level()
    }

    pub fn set_level(&mut self, level: Level) {
        self.player.set_level(level);
    }

    /// Goes on with the programme; call at every turn of the event loop. Gives what the
    /// player has to tell, and whether the programme has just ended.
    pub fn poll(&mut self) -> (Vec<Notice>, bool) {
        let mut notices = Vec::new();
        while let Some(notice) = self.player.poll() {
            if matches!(notice, Notice::Opened(_)) {
                self.render_again();
            }
            notices.push(notice);
        }
        while let Ok(done) = self.done.try_recv() {
            self.kept.push(done);
            let spare = self.kept.len().saturating_sub(KEPT);
            self.kept.drain(..spare);
        }
        let was_busy = self.is_busy();
        self.advance();
        (notices, was_busy && !self.is_busy())
    }

    /// Where the sound is, while a part of a programme sounds.
    #[must_use]
    pub fn position(&self) -> Option<Position> {
        let head = self.player.playhead()?;
        let playing = self.playing.filter(|cue| *cue == head.cue)?;
        if head.motion != Motion::Playing || playing != head.cue {
            return None;
        }
        let part = self.parts.get(self.next.checked_sub(1)?)?;
        let seconds = head.frame as f64 / f64::from(self.player.rate());
        let beats = seconds * f64::from(part.passage.tempo) / 60.0;
        let ticks = (beats * f64::from(TICKS_PER_BEAT)) as Ticks;
        (ticks < part.passage.length).then_some(Position {
            is_line: part.is_line,
            ticks,
        })
    }

    /// A device of another rate has opened: what has not sounded is rendered for it.
    fn render_again(&mut self) {
        let rate = self.player.rate();
        self.kept.retain(|(wanted, _)| wanted.rate == rate);
        // What was sounding on a lost device begins again.
        if self.playing.take().is_some() {
            self.next = self.next.saturating_sub(1);
        }
        for part in self.next..self.parts.len() {
            self.want(part);
        }
    }

    /// Plays the next part once the one before has ended and it is rendered.
    fn advance(&mut self) {
        if self.is_silent() {
            // Nobody hears it: the programme is over as it begins.
            self.next = self.parts.len();
            self.playing = None;
            return;
        }
        if let Some(cue) = self.playing {
            if !self.has_sounded(cue) {
                return;
            }
            self.playing = None;
        }
        if self.next >= self.parts.len() {
            return;
        }
        let wanted = self.wanted(self.next);
        let Some((_, samples)) = self.kept.iter().find(|(known, _)| *known == wanted) else {
            return;
        };
        let cue = Cue::new(Arc::clone(samples), wanted.rate);
        // Refused while a device is being opened: tried again at the next turn.
        if let Ok(id) = self.player.play(cue) {
            self.playing = Some(id);
            self.next += 1;
        }
    }

    /// Whether a cue has sounded: to its end, or as far as the next part may begin, so
    /// that the room's last sound does not hold the line up.
    fn has_sounded(&self, cue: CueId) -> bool {
        if self.player.has_ended(cue) {
            return true;
        }
        let Some(head) = self.player.playhead().filter(|head| head.cue == cue) else {
            return false;
        };
        let is_last = self.next >= self.parts.len();
        let Some(part) = self
            .next
            .checked_sub(1)
            .and_then(|part| self.parts.get(part))
        else {
            return false;
        };
        let seconds = head.frame as f64 / f64::from(self.player.rate());
        !is_last && seconds > part.passage.seconds(part.passage.length) + PAUSE
    }

    fn wanted(&self, part: usize) -> Wanted {
        Wanted {
            passage: self.parts[part].passage.clone(),
            sound: self.sound.clone(),
            rate: self.player.rate(),
        }
    }

    fn want(&self, part: usize) {
        let wanted = self.wanted(part);
        if self.kept.iter().any(|(known, _)| *known == wanted) {
            return;
        }
        let sound = self.sounds.iter().find(|sound| sound.id == self.sound);
        let sound = Arc::clone(sound.unwrap_or(&self.sounds[0]));
        let settings = synth::Settings {
            rate: wanted.rate,
            a4: self.a4,
            ..synth::Settings::default()
        };
        // The thread lives as long as this; a render that is never played harms nobody.
        let _ = self.jobs.send(Job {
            wanted,
            sound,
            settings,
        });
    }
}

/// Seconds between the end of the key and the beginning of the line.
const PAUSE: f64 = 0.35;

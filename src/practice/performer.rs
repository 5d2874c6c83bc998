//! Plays programmes: renders each passage off the audio thread, the first one first, and
//! plays them one after another.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;

use crate::arranging::Passage;
use crate::host::player::{Cue, CueId, Level, Motion, Notice, Player, Region, Status};
use crate::quiz::{Part, Programme};
use crate::synth::{self, Band, Kit, Sound};
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
struct WantedSound {
    passage: Passage,
    sound: String,
    rate: u32,
}

struct Job {
    wanted: WantedSound,
    sound: Arc<Sound>,
    kit: Arc<Kit>,
    settings: synth::Settings,
}

impl Job {
    fn render(&self) -> Arc<[f32]> {
        let passage = &self.wanted.passage;
        let band = Band::for_passage(&self.sound, passage).with_kit(&self.kit);
        let samples = synth::render_band(passage, &band, &self.settings);
        samples.interleaved.into()
    }
}

type Done = (WantedSound, Arc<[f32]>);

/// Renders and plays.
pub struct Performer {
    player: Player,
    sounds: Vec<Arc<Sound>>,
    kit: Arc<Kit>,
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
    /// What is to take up the line where it sounds, once it is rendered.
    across: Option<Part>,
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
                    let samples = job.render();
                    if finished.send((job.wanted, samples)).is_err() {
                        return;
                    }
                }
            })
            .expect("a thread can be started");
        Self {
            player,
            sounds: sounds.into_iter().map(Arc::new).collect(),
            kit: Arc::new(synth::kit().clone()),
            a4,
            jobs,
            done,
            kept: Vec::new(),
            parts: Vec::new(),
            sound: String::new(),
            next: 0,
            playing: None,
            across: None,
        }
    }

    /// What a sound is called; an unknown one by its id.
    #[must_use]
    pub fn title_of<'a>(&'a self, sound: &'a str) -> &'a str {
        let found = self.sounds.iter().find(|known| known.id == sound);
        found.map_or(sound, |known| known.title.as_str())
    }

    /// The same with other percussion.
    #[must_use]
    pub fn with_kit(self, kit: Kit) -> Self {
        Self {
            kit: Arc::new(kit),
            ..self
        }
    }

    /// Plays a programme from its beginning, fading out what sounds; or from where the line
    /// is, if the programme takes it up.
    pub fn play(&mut self, mut programme: Programme) {
        self.across = None;
        let sounding = self.position().and(self.parts.last());
        let last = self.next == self.parts.len();
        let alike = |part: &Part| {
            let length = |part: &Part| (part.passage.length, part.passage.tempo);
            programme
                .parts
                .iter()
                .all(|other| length(other) == length(part))
        };
        if programme.takes_up && last && sounding.is_some_and(alike) {
            self.across = programme.parts.pop();
            self.across.iter().for_each(|part| self.want(part));
            return;
        }
        self.parts = programme.parts;
        self.sound = programme.sound;
        self.next = 0;
        self.playing = None;
        if !self.is_silent() {
            self.parts.iter().for_each(|part| self.want(part));
        }
        self.advance();
    }

    /// Fades out and forgets the programme.
    pub fn stop(&mut self) {
        self.parts.clear();
        self.across = None;
        self.next = 0;
        self.playing = None;
        // Without a device there is nothing to stop.
        let _ = self.player.stop();
    }

    /// Whether a stretch sounds over and over.
    #[must_use]
    pub fn is_repeating(&self) -> bool {
        let part = self.next.checked_sub(1).and_then(|at| self.parts.get(at));
        self.playing.is_some() && part.is_some_and(|part| part.repeats.is_some())
    }

    /// Lets what repeats go on to the end of the passage.
    pub fn go_on(&mut self) {
        if let Some(part) = self
            .next
            .checked_sub(1)
            .and_then(|at| self.parts.get_mut(at))
        {
            part.repeats = None;
        }
        // Without a device nothing repeats.
        let _ = self.player.repeat(None);
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

    /// Whether sound comes out.
    #[must_use]
    pub fn status(&self) -> &Status {
        self.player.status()
    }

    /// How loud it plays.
    #[must_use]
    pub fn level(&self) -> Level {
        self.player.level()
    }

    /// Plays louder or softer from now on.
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
        self.cross();
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
        let open = self.parts.iter().skip(self.next);
        open.chain(&self.across).for_each(|part| self.want(part));
    }

    /// Fades to what takes up the line, once it is rendered; if the line has ended before,
    /// it is heard from its beginning.
    fn cross(&mut self) {
        let Some(part) = self.across.take() else {
            return;
        };
        if self.playing.is_none_or(|cue| self.player.has_ended(cue)) {
            self.parts = vec![part];
            self.next = 0;
            self.playing = None;
            return;
        }
        let crossed = self
            .cue(&part)
            .and_then(|cue| self.player.cross_to(cue).ok());
        match crossed {
            Some(id) => {
                self.playing = Some(id);
                self.parts = vec![part];
                self.next = 1;
            }
            None => self.across = Some(part),
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
        let Some(cue) = self.cue(&self.parts[self.next]) else {
            return;
        };
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

    /// What plays a part, if it is rendered.
    fn cue(&self, part: &Part) -> Option<Cue> {
        let wanted = self.wanted(part);
        let (_, samples) = self.kept.iter().find(|(known, _)| *known == wanted)?;
        let cue = Cue::new(Arc::clone(samples), wanted.rate);
        let Some(repeats) = &part.repeats else {
            return Some(cue);
        };
        let frame = |ticks| (part.passage.seconds(ticks) * f64::from(wanted.rate)) as u64;
        let region = Region::new(frame(repeats.start)..frame(repeats.end));
        Some(cue.from(frame(repeats.start)).repeating(region))
    }

    fn wanted(&self, part: &Part) -> WantedSound {
        WantedSound {
            passage: part.passage.clone(),
            sound: self.sound.clone(),
            rate: self.player.rate(),
        }
    }

    fn want(&self, part: &Part) {
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
            kit: Arc::clone(&self.kit),
            settings,
        });
    }
}

/// Seconds between the end of the key and the beginning of the line.
pub const PAUSE: f64 = 0.35;

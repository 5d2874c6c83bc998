//! The source itself: turns commands and buffers into frames. Runs on the audio thread:
//! it allocates, frees, locks and waits for nothing.

use std::sync::Arc;

use rtrb::{Consumer, Producer, PushError};

use super::clip::{Clip, shape};
use super::command::Command;
use super::playhead::Gauge;
use super::{Cue, CueId, Level, Motion, Playhead, Region};

/// Frames between two looks at the commands.
const BLOCK: usize = 64;

/// Length of every fade, in seconds.
const FADE: f32 = 0.008;

/// How long the level takes from silent to full, in seconds.
const LEVEL_RAMP: f32 = 0.06;

/// No sample leaves louder than this, whatever the buffer holds.
const CEILING: f32 = 0.95;

/// What waits until the clip that leaves has gone.
#[derive(Debug)]
enum Next {
    Play { id: CueId, cue: Cue, here: bool },
    Seek { frame: u64, region: Option<Region> },
    Stop,
}

/// Sounds one cue at a time; another one fades in while the former fades out.
#[derive(Debug)]
pub struct Mixer {
    commands: Consumer<Command>,
    returns: Producer<Arc<[f32]>>,
    gauge: Arc<Gauge>,
    rate: u32,
    current: Option<Clip>,
    leaving: Option<Clip>,
    next: Option<Next>,
    playhead: Playhead,
    paused: bool,
    /// 1 while sounding, 0 while paused.
    transport: f32,
    gain: f32,
    gain_goal: f32,
}

impl Mixer {
    pub(super) fn new(
        commands: Consumer<Command>,
        returns: Producer<Arc<[f32]>>,
        gauge: Arc<Gauge>,
        rate: u32,
        level: Level,
    ) -> Self {
        let playhead = gauge.playhead();
        Self {
            commands,
            returns,
            gauge,
            rate,
            current: None,
            leaving: None,
            next: None,
            playhead,
            paused: false,
            transport: 1.0,
            gain: level.amplitude(),
            gain_goal: level.amplitude(),
        }
    }

    /// Fills `out` with stereo, interleaved frames.
    pub fn fill(&mut self, out: &mut [f32]) {
        for block in out.chunks_mut(2 * BLOCK) {
            while let Ok(command) = self.commands.pop() {
                self.obey(command);
            }
            for frame in block.chunks_mut(2) {
                let made = self.frame();
                for (place, sample) in frame.iter_mut().zip(made) {
                    *place = sample;
                }
            }
            self.gauge.count(block.len() as u64 / 2);
            self.gauge.show(self.playhead);
        }
    }

    fn fade_step(&self) -> f32 {
        1.0 / (FADE * self.rate as f32)
    }

    /// Faded out by a pause: strands can be changed unheard.
    fn is_unheard(&self) -> bool {
        self.transport <= 0.0
    }

    fn obey(&mut self, command: Command) {
        match command {
            Command::Play { id, cue, here } => {
                self.request(Next::Play { id, cue, here });
                self.unpause();
            }
            Command::Stop => {
                self.request(Next::Stop);
                self.unpause();
            }
            Command::Seek(frame) => self.seek(frame),
            Command::Pause => self.paused = self.current.is_some() || self.next.is_some(),
            Command::Resume => self.paused = false,
            Command::Repeat(region) => self.repeat(region),
            Command::Gain(goal) => self.gain_goal = goal.clamp(0.0, 1.0),
        }
    }

    /// What comes after a pause has its own fade, so the transport need not rise slowly.
    fn unpause(&mut self) {
        if self.is_unheard() {
            self.transport = 1.0;
        }
        self.paused = false;
    }

    fn request(&mut self, next: Next) {
        if let Some(Next::Play { cue, .. }) = self.next.take() {
            self.hand_back(cue.samples);
        }
        if self.leaving.is_none() || self.is_unheard() {
            self.turn_to(next);
        } else {
            self.next = Some(next);
        }
    }

    fn turn_to(&mut self, next: Next) {
        match next {
            Next::Play { id, cue, here } => {
                let now = self.current.as_ref().map(|clip| clip.frame);
                let from = now.filter(|_| here).unwrap_or(cue.from);
                let clip = Clip::new(cue.samples, id, from, cue.region);
                self.playhead = Playhead {
                    cue: id,
                    motion: Motion::Playing,
                    frame: clip.frame,
                };
                self.replace(Some(clip));
            }
            Next::Seek { frame, region } => {
                let moved = self.current.as_ref().map(|clip| clip.at(frame, region));
                if let Some(clip) = moved {
                    self.playhead.frame = clip.frame;
                    self.replace(Some(clip));
                }
            }
            Next::Stop => {
                self.playhead.motion = Motion::Idle;
                self.playhead.frame = 0;
                self.replace(None);
            }
        }
    }

    /// Puts `clip` on; what sounded fades away under it, or goes at once if unheard.
    fn replace(&mut self, clip: Option<Clip>) {
        let former = std::mem::replace(&mut self.current, clip);
        if self.is_unheard() {
            for gone in [former, self.leaving.take()].into_iter().flatten() {
                self.hand_back(gone.samples);
            }
        } else if let Some(mut former) = former {
            former.leave();
            self.leaving = Some(former);
        }
    }

    fn seek(&mut self, frame: u64) {
        let region = match &mut self.next {
            Some(Next::Play { cue, here, .. }) => {
                cue.from = frame;
                *here = false;
                return;
            }
            Some(Next::Stop) => return,
            Some(Next::Seek { region, .. }) => *region,
            None => self.current.as_ref().and_then(|clip| clip.region),
        };
        self.request(Next::Seek { frame, region });
    }

    fn repeat(&mut self, region: Option<Region>) {
        let fits = |length| region.filter(|region| region.check(length, self.rate).is_ok());
        let sounding = self.current.as_ref().map(Clip::length);
        match (&mut self.next, sounding) {
            (Some(Next::Play { cue, .. }), _) => cue.region = fits(cue.length()),
            (Some(Next::Seek { region, .. }), Some(length)) => *region = fits(length),
            (Some(Next::Stop | Next::Seek { .. }), _) | (None, None) => {}
            (None, Some(length)) => {
                let region = fits(length);
                self.repeat_now(region);
            }
        }
    }

    fn repeat_now(&mut self, region: Option<Region>) {
        let step = self.fade_step();
        let Some(clip) = &mut self.current else {
            return;
        };
        match region {
            Some(region) if !clip.can_enter(region, step) => {
                // Too near the region's end to fade out before it: begin it afresh.
                self.request(Next::Seek {
                    frame: region.start,
                    region: Some(region),
                });
            }
            Some(_) | None => clip.region = region,
        }
    }

    /// Unheard, nothing needs to fade: what waits takes its place at once.
    fn settle(&mut self) {
        if let Some(gone) = self.leaving.take() {
            self.hand_back(gone.samples);
        }
        if let Some(next) = self.next.take() {
            self.turn_to(next);
        }
        if self.current.is_some() {
            self.playhead.motion = Motion::Paused;
        }
    }

    fn frame(&mut self) -> [f32; 2] {
        let step = self.fade_step();
        let goal = if self.paused { 0.0 } else { 1.0 };
        self.transport += (goal - self.transport).clamp(-step, step);
        let level_step = 1.0 / (LEVEL_RAMP * self.rate as f32);
        self.gain += (self.gain_goal - self.gain).clamp(-level_step, level_step);
        if self.paused && self.is_unheard() {
            self.settle();
            return [0.0; 2];
        }
        let mut sum = [0.0; 2];
        self.make_room();
        if let Some(clip) = &mut self.leaving {
            add(&mut sum, clip.read(step));
        }
        self.read_current(step, &mut sum);
        let gain = shape(self.transport) * self.gain;
        sum.map(|sample| guard(sample * gain))
    }

    /// Once the leaving clip has gone, what waited takes its turn: before any clip is
    /// read, so that none misses a frame.
    fn make_room(&mut self) {
        while let Some(gone) = self.leaving.take_if(|clip| clip.is_over()) {
            self.hand_back(gone.samples);
            if let Some(next) = self.next.take() {
                self.turn_to(next);
            }
        }
    }

    fn read_current(&mut self, step: f32, sum: &mut [f32; 2]) {
        let Some(clip) = &mut self.current else {
            return;
        };
        if !clip.is_over() {
            add(sum, clip.read(step));
        }
        self.playhead.frame = clip.frame;
        self.playhead.motion = Motion::Playing;
        if clip.is_over() {
            self.playhead.motion = Motion::Ended;
            let gone = self.current.take();
            gone.into_iter()
                .for_each(|gone| self.hand_back(gone.samples));
        }
    }

    fn hand_back(&mut self, samples: Arc<[f32]>) {
        if let Err(PushError::Full(samples)) = self.returns.push(samples) {
            // Cannot happen while the remote collects before it sends; freeing here would
            // stall the device, so rather lose the memory.
            std::mem::forget(samples);
        }
    }
}

fn add(sum: &mut [f32; 2], frame: [f32; 2]) {
    for (total, sample) in sum.iter_mut().zip(frame) {
        *total += sample;
    }
}

/// Never louder than the ceiling, and never not a number.
fn guard(sample: f32) -> f32 {
    if sample.is_nan() {
        0.0
    } else {
        sample.clamp(-CEILING, CEILING)
    }
}

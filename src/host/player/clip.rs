//! One buffer being read, with the envelope that keeps its edges from clicking.

use std::sync::Arc;

use super::{CueId, Region};

/// Below this a buffer's first frame is taken as silence and needs no fade.
const QUIET: f32 = 1e-3;

/// A buffer being read. Its envelope never moves by more than `step` a frame, and it has
/// come down to nothing wherever reading ends or jumps.
#[derive(Debug)]
pub(super) struct Clip {
    pub(super) samples: Arc<[f32]>,
    pub(super) cue: CueId,
    pub(super) frame: u64,
    pub(super) region: Option<Region>,
    envelope: f32,
    leaving: bool,
}

impl Clip {
    pub(super) fn new(samples: Arc<[f32]>, cue: CueId, frame: u64, region: Option<Region>) -> Self {
        let mut clip = Self {
            samples,
            cue,
            frame,
            region,
            envelope: 0.0,
            leaving: false,
        };
        if region.is_some_and(|region| frame >= region.end) {
            clip.frame = region.map_or(0, |region| region.start);
        }
        clip.envelope = clip.onset();
        clip
    }

    pub(super) fn length(&self) -> u64 {
        self.samples.len() as u64 / 2
    }

    /// The same buffer elsewhere.
    pub(super) fn at(&self, frame: u64, region: Option<Region>) -> Self {
        Self::new(Arc::clone(&self.samples), self.cue, frame, region)
    }

    /// Fades away from the next frame on.
    pub(super) fn leave(&mut self) {
        self.leaving = true;
        self.region = None;
    }

    /// Whether `region` can be set without a jump: reading is before its last fade.
    pub(super) fn can_enter(&self, region: Region, step: f32) -> bool {
        let fade = (1.0 / step).ceil() as u64;
        self.frame + fade < region.end
    }

    pub(super) fn is_over(&self) -> bool {
        self.frame >= self.length() || self.leaving && self.envelope <= 0.0
    }

    /// The next frame. `step` is how far the envelope may move.
    pub(super) fn read(&mut self, step: f32) -> [f32; 2] {
        let end = self.region.map_or(self.length(), |region| region.end);
        let room = (end - self.frame) as f32 * step;
        let goal = if self.leaving { 0.0 } else { room.min(1.0) };
        // A fading clip that also nears its end must still reach it in silence.
        self.envelope = (self.envelope + (goal - self.envelope).clamp(-step, step)).min(room);
        let place = self.frame as usize * 2;
        let gain = shape(self.envelope);
        let frame = [self.samples[place] * gain, self.samples[place + 1] * gain];
        self.frame += 1;
        if let Some(region) = self.region
            && self.frame == region.end
        {
            self.frame = region.start;
            self.envelope = self.onset();
        }
        frame
    }

    /// A buffer that begins in silence keeps its attack; all else fades in.
    fn onset(&self) -> f32 {
        let starts_quietly =
            self.frame == 0 && self.samples.iter().take(2).all(|x| x.abs() < QUIET);
        if starts_quietly { 1.0 } else { 0.0 }
    }
}

/// A straight ramp with its corners rounded; a pair that crosses still sums to one.
pub(super) fn shape(ramp: f32) -> f32 {
    ramp * ramp * (3.0 - 2.0 * ramp)
}

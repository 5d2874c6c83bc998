//! Where the sound is, in one atomic word so that it is never half old.

use std::sync::atomic::{AtomicU64, Ordering};

use super::CueId;

/// What the sound is doing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Motion {
    /// Nothing has been played yet, or it was stopped.
    Idle,
    /// It moves.
    Playing,
    /// It stands.
    Paused,
    /// The cue sounded to its end.
    Ended,
}

/// Where the sound is: exact to the frame last handed to the device, which is heard
/// one or two blocks later.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Playhead {
    /// What sounds.
    pub cue: CueId,
    /// Whether it moves.
    pub motion: Motion,
    /// Frames from the beginning of the cue's buffer.
    pub frame: u64,
}

const MOTION_BITS: u32 = 2;
const FRAME_BITS: u32 = 64 - CueId::BITS - MOTION_BITS;
/// 2^42 frames: three years at 48 kHz.
const FRAME_MASK: u64 = (1 << FRAME_BITS) - 1;

impl Playhead {
    fn pack(self) -> u64 {
        let motion = match self.motion {
            Motion::Idle => 0,
            Motion::Playing => 1,
            Motion::Paused => 2,
            Motion::Ended => 3,
        };
        u64::from(self.cue.number()) << (MOTION_BITS + FRAME_BITS)
            | motion << FRAME_BITS
            | self.frame.min(FRAME_MASK)
    }

    fn unpack(word: u64) -> Self {
        let motion = match word >> FRAME_BITS & 3 {
            0 => Motion::Idle,
            1 => Motion::Playing,
            2 => Motion::Paused,
            _ => Motion::Ended,
        };
        Self {
            cue: CueId::numbered((word >> (MOTION_BITS + FRAME_BITS)) as u32),
            motion,
            frame: word & FRAME_MASK,
        }
    }
}

/// What the source tells the rest of the program, without locks.
#[derive(Debug)]
pub(super) struct Gauge {
    playhead: AtomicU64,
    frames: AtomicU64,
}

impl Gauge {
    pub(super) fn new() -> Self {
        let start = Playhead {
            cue: CueId::NONE,
            motion: Motion::Idle,
            frame: 0,
        };
        Self {
            playhead: AtomicU64::new(start.pack()),
            frames: AtomicU64::new(0),
        }
    }

    pub(super) fn show(&self, playhead: Playhead) {
        self.playhead.store(playhead.pack(), Ordering::Release);
    }

    pub(super) fn playhead(&self) -> Playhead {
        Playhead::unpack(self.playhead.load(Ordering::Acquire))
    }

    pub(super) fn count(&self, frames: u64) {
        self.frames.fetch_add(frames, Ordering::Relaxed);
    }

    /// Frames the device has taken since it opened, silence included.
    pub(super) fn frames(&self) -> u64 {
        self.frames.load(Ordering::Relaxed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_playhead_survives_its_word() {
        let motions = [Motion::Idle, Motion::Playing, Motion::Paused, Motion::Ended];
        for motion in motions {
            for frame in [0, 1, 48_000, FRAME_MASK] {
                for cue in [0, 1, (1 << CueId::BITS) - 1] {
                    let cue = CueId::numbered(cue);
                    let head = Playhead { cue, motion, frame };
                    assert_eq!(Playhead::unpack(head.pack()), head);
                }
            }
        }
    }
}

//! What to play: a buffer, where to begin and what to repeat.

use std::fmt;
use std::ops::Range;
use std::sync::Arc;

use super::Fault;

/// The number of one cue, to be found again in the playhead.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct CueId(u32);

impl CueId {
    pub(super) const BITS: u32 = 20;
    /// Before the first cue.
    pub(super) const NONE: Self = Self(0);

    /// For whoever drives a mixer without a [`super::Player`]: `number` modulo 2^20; zero
    /// stands for no cue.
    #[must_use]
    pub fn numbered(number: u32) -> Self {
        Self(number % (1 << Self::BITS))
    }

    pub(super) fn number(self) -> u32 {
        self.0
    }

    /// Counts round, passing over [`Self::NONE`].
    pub(super) fn next(self) -> Self {
        Self(((self.0 + 1) % (1 << Self::BITS)).max(1))
    }
}

/// A stretch of frames to be repeated, the end not included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Region {
    pub(super) start: u64,
    pub(super) end: u64,
}

impl Region {
    /// The shortest region, in seconds: room to fade in and out.
    pub const SHORTEST: f64 = 0.02;

    /// These frames of a buffer.
    #[must_use]
    pub fn new(frames: Range<u64>) -> Self {
        Self {
            start: frames.start,
            end: frames.end,
        }
    }

    pub(super) fn check(self, length: u64, rate: u32) -> Result<(), Refusal> {
        let shortest = (Self::SHORTEST * f64::from(rate)).ceil() as u64;
        if self.end > length || self.start.saturating_add(shortest) > self.end {
            return Err(Refusal::Region {
                found: self,
                length,
                shortest,
            });
        }
        Ok(())
    }
}

/// A rendered buffer and how to play it.
#[derive(Clone, Debug)]
pub struct Cue {
    pub(super) samples: Arc<[f32]>,
    pub(super) rate: u32,
    pub(super) from: u64,
    pub(super) region: Option<Region>,
}

impl Cue {
    /// Stereo, interleaved samples at `rate` frames a second, from their beginning.
    #[must_use]
    pub fn new(samples: Arc<[f32]>, rate: u32) -> Self {
        Self {
            samples,
            rate,
            from: 0,
            region: None,
        }
    }

    /// Begins at `frame`; beyond the end nothing sounds.
    #[must_use]
    pub fn from(self, frame: u64) -> Self {
        Self {
            from: frame,
            ..self
        }
    }

    /// Repeats `region` until told otherwise.
    #[must_use]
    pub fn repeating(self, region: Region) -> Self {
        Self {
            region: Some(region),
            ..self
        }
    }

    /// Length of the buffer in frames.
    #[must_use]
    pub fn length(&self) -> u64 {
        self.samples.len() as u64 / 2
    }

    pub(super) fn check(&self, rate: u32) -> Result<(), Refusal> {
        if self.rate != rate {
            return Err(Refusal::Rate {
                found: self.rate,
                expected: rate,
            });
        }
        if self.length() == 0 || !self.samples.len().is_multiple_of(2) {
            return Err(Refusal::Shape(self.samples.len()));
        }
        self.region
            .map_or(Ok(()), |region| region.check(self.length(), rate))
    }
}

/// Why a command was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// No device is open yet; it is being looked for.
    Opening,
    /// No device sounds.
    Silent(Fault),
    /// The buffer's rate is not the device's; it must be rendered again.
    Rate {
        /// Frames a second of the buffer.
        found: u32,
        /// Frames a second of the device.
        expected: u32,
    },
    /// So many samples are not whole stereo frames, or there are none.
    Shape(usize),
    /// The region leaves the buffer or is too short to fade in and out.
    Region {
        /// The region that was asked for.
        found: Region,
        /// The frames of the buffer.
        length: u64,
        /// The fewest frames of a region.
        shortest: u64,
    },
    /// The device has not taken the last commands yet.
    Crowded,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Opening => f.write_str("the sound device is still being opened"),
            Self::Silent(fault) => fault.fmt(f),
            Self::Rate { found, expected } => write!(
                f,
                "a buffer of {found} frames a second for a device of {expected}"
            ),
            Self::Shape(samples) => write!(
                f,
                "a buffer of {samples} samples; expected whole stereo frames"
            ),
            Self::Region {
                found,
                length,
                shortest,
            } => write!(
                f,
                "frames {} to {} cannot be repeated; expected at least {shortest} within {length}",
                found.start, found.end
            ),
            Self::Crowded => f.write_str("the sound device has not taken the last commands yet"),
        }
    }
}

impl std::error::Error for Refusal {}

//! What a drill asks for: the checked settings of an exercise.

use std::fmt;
use std::ops::RangeInclusive;

use super::kind::QuestionKind;
use crate::arranging::Texture;
use crate::devices::DeviceId;
use crate::harmony::{Phrasing, Style};
use crate::theory::{BareSix, Key, Meter};

/// How the key is made known before the line sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum KeyGiven {
    /// By a cadence.
    Cadence,
    /// By the tonic, held.
    Tonic,
    /// Not at all.
    Nothing,
}

impl KeyGiven {
    /// All ways.
    pub const ALL: [Self; 3] = [Self::Cadence, Self::Tonic, Self::Nothing];

    /// The word in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cadence => "cadence",
            Self::Tonic => "tonic",
            Self::Nothing => "nothing",
        }
    }
}

impl fmt::Display for KeyGiven {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Which chords of a line are asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Asked {
    /// Every chord of the line.
    EveryChord,
    /// The chords with a note outside the key; if there is none, the device's own.
    ChordsOutOfKey,
    /// One chord of the device.
    MarkedChord,
}

impl Asked {
    /// All ways.
    pub const ALL: [Self; 3] = [Self::EveryChord, Self::ChordsOutOfKey, Self::MarkedChord];

    /// The words in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::EveryChord => "every chord",
            Self::ChordsOutOfKey => "chords out of key",
            Self::MarkedChord => "marked chord",
        }
    }
}

impl fmt::Display for Asked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// The voice that is followed where degrees are asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Followed {
    /// The bass.
    Bass,
    /// The upper voice that leaves the key by step.
    Telling,
}

impl Followed {
    /// All voices that may be followed.
    pub const ALL: [Self; 2] = [Self::Bass, Self::Telling];

    /// The word in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bass => "bass",
            Self::Telling => "telling",
        }
    }
}

impl Drill {
    /// Whether the key is known before the line sounds.
    #[must_use]
    pub fn tells_key(&self) -> bool {
        self.key_given != KeyGiven::Nothing && self.kind != QuestionKind::Home
    }
}

/// The settings of a drill.
#[derive(Clone, Debug, PartialEq)]
pub struct Drill {
    /// The id of the exercise, for the journal.
    pub exercise: String,
    /// What is asked.
    pub kind: QuestionKind,
    /// Which chords are named, in the kind that asks for names.
    pub asked: Asked,
    /// The voice whose degrees are asked, in the kind that asks for them.
    pub followed: Followed,
    /// The devices that are asked; never empty.
    pub devices: Vec<DeviceId>,
    /// Devices that no line may hold.
    pub never: Vec<DeviceId>,
    /// Never empty.
    pub keys: Vec<Key>,
    /// 2 to 32.
    pub bars: RangeInclusive<u32>,
    /// The metre of all lines.
    pub meter: Meter,
    /// Quarter notes a minute, 30 to 300.
    pub tempo: RangeInclusive<u16>,
    /// How the key is made known.
    pub key_given: KeyGiven,
    /// How many answers are on offer; 0 when the answer is typed.
    pub answers: usize,
    /// How many questions the drill has.
    pub questions: u32,
    /// Ids of sounds; never empty.
    pub sounds: Vec<String>,
    /// Never empty.
    pub textures: Vec<Texture>,
    /// How chords at rest are coloured; in any style if none is named.
    pub styles: Vec<Style>,
    /// How lines go about their phrases.
    pub phrasing: Phrasing,
    /// How a bare six in a typed answer is read.
    pub six: BareSix,
}

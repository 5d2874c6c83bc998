//! What the user can choose about the device, and what was opened.

use std::fmt;
use std::str::FromStr;

use super::Level;

/// Which device to play on.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Choice {
    /// None at all: the program stays silent.
    Off,
    /// Whatever the system plays on.
    #[default]
    Default,
    /// The one with this id (see [`super::devices`]).
    Device(String),
}

impl FromStr for Choice {
    type Err = std::convert::Infallible;

    /// Reads `off`, `default`, `auto` (the same) or a device's id.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Ok(match text {
            "off" => Self::Off,
            "default" | "auto" => Self::Default,
            id => Self::Device(id.to_owned()),
        })
    }
}

impl fmt::Display for Choice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Off => "off",
            Self::Default => "default",
            Self::Device(id) => id,
        })
    }
}

/// Frames in a block that the device asks for: the fewer, the sooner a press is heard and
/// the likelier the sound breaks up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum BufferSize {
    /// 512 frames.
    Frames512,
    /// 1024 frames.
    #[default]
    Frames1024,
    /// 2048 frames.
    Frames2048,
    /// 4096 frames.
    Frames4096,
}

impl BufferSize {
    /// All sizes, the smallest first.
    pub const ALL: [Self; 4] = [
        Self::Frames512,
        Self::Frames1024,
        Self::Frames2048,
        Self::Frames4096,
    ];

    /// How many frames.
    #[must_use]
    pub fn frames(self) -> u32 {
        match self {
            Self::Frames512 => 512,
            Self::Frames1024 => 1024,
            Self::Frames2048 => 2048,
            Self::Frames4096 => 4096,
        }
    }
}

/// How to open the device.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Settings {
    /// Which device.
    pub choice: Choice,
    /// How large its blocks are to be.
    pub buffer: BufferSize,
    /// How loud it starts.
    pub level: Level,
}

impl Settings {
    /// No device, by the user's wish.
    #[must_use]
    pub fn off() -> Self {
        Self {
            choice: Choice::Off,
            ..Self::default()
        }
    }
}

/// A device that could be chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeviceName {
    /// Stable between runs; what [`Choice::Device`] takes.
    pub id: String,
    /// For people.
    pub name: String,
}

/// The device that is open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Output {
    /// Which it is.
    pub device: DeviceName,
    /// Frames a second.
    pub rate: u32,
    /// Its channels.
    pub channels: u16,
    /// Frames in a block, where the device took our wish.
    pub block: Option<u32>,
}

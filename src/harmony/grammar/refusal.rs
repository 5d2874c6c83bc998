//! Why a progression cannot be made.

use std::fmt;

use crate::devices::DeviceId;
use crate::theory::{Meter, Mode};

/// Why a progression cannot be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The catalogue has no such device.
    UnknownDevice(DeviceId),
    /// The device is only recognised.
    NotAsked(DeviceId),
    /// The device is not met in the mode that was asked for.
    WrongMode {
        /// The device that was wanted.
        device: DeviceId,
        /// The mode of the key.
        mode: Mode,
    },
    /// Lines have 2 to 32 bars.
    Bars(u32),
    /// The device's chords do not fit into the bars.
    TooShort {
        /// The device that was wanted.
        device: DeviceId,
        /// The bars there are.
        bars: u32,
        /// The metre of the bars.
        meter: Meter,
    },
    /// Every line that was tried held a device that must not be there.
    Forbidden {
        /// The device that was wanted.
        device: DeviceId,
        /// The device that must not be there.
        found: DeviceId,
    },
    /// No path through the key joins the device to an opening and an ending.
    NoPath(DeviceId),
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownDevice(device) => write!(f, "device `{device}` is not in the catalogue"),
            Self::NotAsked(device) => {
                write!(
                    f,
                    "device `{device}` is recognised but no questions are made on it"
                )
            }
            Self::WrongMode { device, mode } => {
                write!(f, "device `{device}` is not met in {mode} keys")
            }
            Self::Bars(bars) => write!(f, "{bars} bars were wanted; expected 2 to 32"),
            Self::TooShort {
                device,
                bars,
                meter,
            } => {
                write!(
                    f,
                    "device `{device}` does not fit into {bars} bars of {meter}"
                )
            }
            Self::Forbidden { device, found } => {
                write!(
                    f,
                    "every line with `{device}` also held `{found}`, which is excluded"
                )
            }
            Self::NoPath(device) => {
                write!(
                    f,
                    "no phrase of this length holds `{device}`; expected more bars"
                )
            }
        }
    }
}

impl std::error::Error for Refusal {}

//! Why there is no sound.

use std::fmt;

/// Why no device sounds at the moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The cargo feature `audio` was off.
    BuiltWithoutSound,
    /// The user asked for silence.
    TurnedOff,
    /// The system has no device.
    NoDevice,
    /// The device that was asked for is not there.
    NoSuchDevice(String),
    /// Another program holds the device.
    Busy,
    /// The system does not let this user open it.
    Denied,
    /// The device refuses every format that could be sent to it.
    Unsupported,
    /// The device stopped taking sound.
    Lost,
    /// What the system said, where it fits none of the above.
    System(String),
}

impl Fault {
    /// Whether looking again could not help.
    #[must_use]
    pub fn is_permanent(&self) -> bool {
        match self {
            Self::BuiltWithoutSound | Self::TurnedOff => true,
            Self::NoDevice
            | Self::NoSuchDevice(_)
            | Self::Busy
            | Self::Denied
            | Self::Unsupported
            | Self::Lost
            | Self::System(_) => false,
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BuiltWithoutSound => f.write_str("this program was built without sound"),
            Self::TurnedOff => f.write_str("sound is turned off"),
            Self::NoDevice => f.write_str("no sound device found"),
            Self::NoSuchDevice(id) => write!(
                f,
                "no sound device `{id}`; expected `default` or one of the devices listed"
            ),
            Self::Busy => f.write_str("the sound device is in use by another program"),
            Self::Denied => f.write_str("the system does not allow the use of the sound device"),
            Self::Unsupported => f.write_str("the sound device takes none of our formats"),
            Self::Lost => f.write_str("the sound device is gone"),
            Self::System(said) => write!(f, "the sound device does not open: {said}"),
        }
    }
}

impl std::error::Error for Fault {}

//! Whether sound comes out, and what is worth telling of it.

use std::fmt;

use super::{Fault, Output};

/// Whether sound comes out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Status {
    /// A device is being looked for.
    Opening,
    /// A device is open.
    Open(Output),
    /// No sound, and why; unless the reason is permanent a device is still looked for.
    Silent(Fault),
}

/// Something the user may want to know.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// A device opened; what was rendered at another rate must be rendered again.
    Opened(Output),
    /// The device died under the sound. It is being looked for again.
    Lost,
    /// No device could be opened.
    Failed(Fault),
}

impl fmt::Display for Notice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Opened(output) => write!(f, "sound on {}", output.device.name),
            Self::Lost => f.write_str("the sound device is gone; looking for it again"),
            Self::Failed(fault) => fault.fmt(f),
        }
    }
}

//! Why no question can be made.

use super::kind::QuestionKind;
use crate::devices::DeviceId;
use crate::harmony::Refusal;
use crate::theory::TooRemote;

/// Why a question cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub enum NoQuestion {
    /// No line can be made.
    Refused(Refusal),
    /// No key of the drill has a mode in which the device is met.
    NoKey(DeviceId),
    /// Nothing gives the key, and no line with the device comes home by its dominant.
    NoHome(DeviceId),
    /// The kind cannot ask about the device.
    Unsuited {
        /// The kind that was wanted.
        kind: QuestionKind,
        /// The device that was wanted.
        device: DeviceId,
    },
    /// A chord has no notes in the key.
    TooRemote(TooRemote),
}

impl std::fmt::Display for NoQuestion {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Refused(refusal) => refusal.fmt(f),
            Self::NoKey(device) => {
                write!(
                    f,
                    "no key of the exercise has the mode of device `{device}`"
                )
            }
            Self::NoHome(device) => {
                write!(
                    f,
                    "the key is not given, and no line with device `{device}` tells it by V and I"
                )
            }
            Self::Unsuited { kind, device } => {
                write!(
                    f,
                    "question kind `{kind}` cannot ask about device `{device}`"
                )
            }
            Self::TooRemote(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for NoQuestion {}

impl From<Refusal> for NoQuestion {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

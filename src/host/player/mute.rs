//! Stands in for the device where the program was built without sound.

use super::watch::Opened;
use super::{DeviceName, Fault, Settings};

pub(super) fn open(_: &Settings) -> Result<Opened, Fault> {
    Err(Fault::BuiltWithoutSound)
}

/// The devices that could be chosen.
///
/// # Errors
/// Always: this program was built without sound.
pub fn devices() -> Result<Vec<DeviceName>, Fault> {
    Err(Fault::BuiltWithoutSound)
}

/// The device that the system would choose: none.
#[must_use]
pub fn default_device() -> Option<DeviceName> {
    None
}

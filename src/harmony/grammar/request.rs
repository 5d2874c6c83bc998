//! What is asked of the grammar.

use super::colour::Style;
use super::phrasing::Phrasing;
use crate::devices::DeviceId;
use crate::theory::{Key, Meter};

/// What a progression should be.
#[derive(Clone, Debug, PartialEq)]
pub struct Request<'a> {
    /// The device that must be there.
    pub wanted: &'a DeviceId,
    /// Devices that may be there too. Those of cadences, of the minor mode and of form
    /// always may.
    pub company: &'a [DeviceId],
    /// Devices that must not be there.
    pub never: &'a [DeviceId],
    /// The home key.
    pub key: Key,
    /// The metre of all bars.
    pub meter: Meter,
    /// 2 to 32.
    pub bars: u32,
    /// The styles that lines are coloured in; all of them if none is named.
    pub styles: &'a [Style],
    /// How lines go about their phrases.
    pub phrasing: Phrasing,
}

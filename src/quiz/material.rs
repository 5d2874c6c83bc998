//! What a question is about, apart from what is asked of it.

use crate::arranging::Texture;
use crate::devices::DeviceId;
use crate::harmony::Progression;

/// A second line.
#[derive(Clone, Debug, PartialEq)]
pub struct Other {
    /// The line with its truth.
    pub progression: Progression,
    /// Whether it is heard before the line that holds the wanted device.
    pub is_first: bool,
}

/// What a question is about: what marking and diagnosing an answer need of it.
#[derive(Clone, Copy, Debug)]
pub struct Material<'q> {
    /// The line with its truth.
    pub progression: &'q Progression,
    /// The device that the line was made for.
    pub wanted: &'q DeviceId,
    /// The line it is compared with, in kinds that have one.
    pub other: Option<&'q Other>,
    /// Slots that are pointed at.
    pub pointed: &'q [usize],
    /// How it is laid out.
    pub texture: Texture,
}

//! What an audit looks at.

use crate::devices::Catalogue;
use crate::quiz::Drill;

/// What is audited.
#[derive(Clone, Copy, Debug)]
pub struct Plan<'a> {
    /// The devices that questions are made of.
    pub catalogue: &'a Catalogue,
    /// Never empty. Questions are made of each in turn.
    pub drills: &'a [Drill],
    /// How many questions; at least 1.
    pub questions: u32,
    /// The seed of every drill.
    pub seed: u64,
}

//! A line in a key, with the devices in it.

use crate::devices::{Catalogue, DeviceId, Occurrence};
use crate::theory::{Key, Line, Numeral};

/// A line in a key and the truth about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Progression {
    pub key: Key,
    pub line: Line,
    pub devices: Vec<Occurrence>,
}

impl Progression {
    /// Reads the devices out of a line.
    #[must_use]
    pub fn new(key: Key, line: Line, catalogue: &Catalogue) -> Self {
        let numerals: Vec<&Numeral> = line.numerals().collect();
        let devices = catalogue.find(&numerals, key.mode());
        Self { key, line, devices }
    }

    /// The devices to whose own chords a slot belongs.
    pub fn devices_at(&self, slot: usize) -> impl Iterator<Item = &DeviceId> {
        self.devices
            .iter()
            .filter(move |found| found.own.contains(&slot))
            .map(|f| &f.device)
    }

    /// Where a device is found first.
    #[must_use]
    pub fn occurrence(&self, device: &DeviceId) -> Option<&Occurrence> {
        self.devices.iter().find(|found| found.device == *device)
    }

    /// Whether a slot's chord has a note outside the key.
    #[must_use]
    pub fn leaves_key(&self, slot: usize) -> bool {
        let numeral = &self.line.slots()[slot].numeral;
        numeral
            .degrees()
            .into_iter()
            .any(|degree| !self.key.holds(degree))
    }
}

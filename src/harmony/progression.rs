//! A line in a key, with the devices in it.

use crate::devices::{Catalogue, DeviceId, Kind, Occurrence, Shape};
use crate::theory::{Degree, Key, Line, Numeral};

/// A line in a key and the truth about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Progression {
    /// The home key.
    pub key: Key,
    /// The chords.
    pub line: Line,
    /// The devices that the catalogue finds in the line.
    pub devices: Vec<Occurrence>,
    /// The slot that the line was made around, if it was made for a device.
    pub focus: Option<usize>,
}

impl Progression {
    /// Reads the devices out of a line.
    #[must_use]
    pub fn new(key: Key, line: Line, catalogue: &Catalogue) -> Self {
        let numerals: Vec<&Numeral> = line.numerals().collect();
        let devices = catalogue.find(&numerals, key.mode());
        Self {
            key,
            line,
            devices,
            focus: None,
        }
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

    /// The slot to ask about when a device is asked by one of its chords: the one that the
    /// line was made around, or else the first of its own.
    #[must_use]
    pub fn marked(&self, device: &DeviceId) -> Option<usize> {
        self.focus
            .filter(|slot| self.devices_at(*slot).any(|found| found == device))
            .or_else(|| self.occurrence(device).map(|found| found.own.start))
    }

    /// Whether the line tells its key by itself: the tonic in root position comes after its
    /// dominant.
    #[must_use]
    pub fn comes_home(&self) -> bool {
        let numerals: Vec<&Numeral> = self.line.numerals().collect();
        numerals.windows(2).any(|pair| {
            let (dominant, tonic) = (Shape::acting(pair[0]), Shape::of(pair[1]));
            matches!(dominant.kind, Kind::Dominant | Kind::Major)
                && dominant.root == Degree::new(5, 0)
                && matches!(tonic.kind, Kind::Major | Kind::Minor)
                && pair[1].root() == Degree::TONIC
                && pair[1].sounding_bass() == Degree::TONIC
        })
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

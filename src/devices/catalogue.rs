//! All devices, and where a line holds them.

use std::fmt;
use std::ops::Range;

use super::device::Device;
use super::finder::Finder;
use super::id::DeviceId;
use crate::document::{Faults, near};
use crate::theory::{Mode, Numeral};

/// A device found in a line.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Occurrence {
    /// Which device it is.
    pub device: DeviceId,
    /// The device's own chords, as slots of the line.
    pub own: Range<usize>,
    /// Its own chords and the context that makes them what they are.
    pub span: Range<usize>,
}

/// The devices that are known, in the order of their ids.
#[derive(Clone, Debug, PartialEq)]
pub struct Catalogue {
    devices: Vec<Device>,
    /// For each device the places of those that it yields to.
    winners: Vec<Vec<usize>>,
    finder: Finder,
}

/// Why devices make no catalogue.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CatalogueError {
    /// A device names another that does not exist.
    Unknown {
        /// The device that names another.
        device: DeviceId,
        /// The id that it names.
        named: DeviceId,
        /// The id whose spelling is nearest.
        near: Option<String>,
    },
}

impl fmt::Display for CatalogueError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown {
                device,
                named,
                near,
            } => {
                write!(
                    f,
                    "device `{device}` names `{named}`, which is not in the catalogue"
                )?;
                near.as_ref()
                    .map_or(Ok(()), |near| write!(f, "; did you mean `{near}`?"))
            }
        }
    }
}

impl std::error::Error for CatalogueError {}

impl Catalogue {
    /// The devices that come with the program.
    ///
    /// # Panics
    /// If a built-in file is broken, which a test rules out.
    #[must_use]
    pub fn built_in() -> Self {
        let devices = super::built_in::FILES.iter().map(|(id, text)| {
            Device::read(text).unwrap_or_else(|faults: Faults| {
                let first = faults
                    .iter()
                    .next()
                    .map(ToString::to_string)
                    .unwrap_or_default();
                panic!("the built-in device `{id}` is sound, but {first}")
            })
        });
        Self::of(devices.collect()).expect("built-in devices name each other rightly")
    }

    /// A catalogue of these devices; of two with one id the later wins.
    ///
    /// # Errors
    /// If a device names another that is not among them.
    pub fn of(devices: Vec<Device>) -> Result<Self, CatalogueError> {
        let mut kept: Vec<Device> = Vec::with_capacity(devices.len());
        for device in devices {
            match kept.iter_mut().find(|other| other.id == device.id) {
                Some(earlier) => *earlier = device,
                None => kept.push(device),
            }
        }
        kept.sort_by(|one, other| one.id.cmp(&other.id));
        let mut catalogue = Self {
            winners: Vec::new(),
            finder: Finder::new(&kept),
            devices: kept,
        };
        for device in &catalogue.devices {
            let named = device.neighbours.iter().chain(&device.yields_to);
            if let Some(named) = named.into_iter().find(|id| catalogue.place(id).is_none()) {
                return Err(CatalogueError::Unknown {
                    device: device.id.clone(),
                    named: named.clone(),
                    near: near(named.as_str(), catalogue.ids()).map(str::to_owned),
                });
            }
        }
        let places = |ids: &[DeviceId]| ids.iter().filter_map(|id| catalogue.place(id)).collect();
        catalogue.winners = catalogue
            .devices
            .iter()
            .map(|device| places(&device.yields_to))
            .collect();
        Ok(catalogue)
    }

    /// All devices, in the order of the catalogue.
    #[must_use]
    pub fn devices(&self) -> &[Device] {
        &self.devices
    }

    /// The ids of all devices, in that order.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.devices.iter().map(|device| device.id.as_str())
    }

    /// The device of this id, if there is one.
    #[must_use]
    pub fn get(&self, id: &DeviceId) -> Option<&Device> {
        self.place(id).map(|place| &self.devices[place])
    }

    fn place(&self, id: &DeviceId) -> Option<usize> {
        self.devices
            .binary_search_by(|device| device.id.cmp(id))
            .ok()
    }

    /// Every device in a line of numerals, in the order of their first chords. A device
    /// that yields to another found on the same chords is left out.
    #[must_use]
    pub fn find(&self, line: &[&Numeral], mode: Mode) -> Vec<Occurrence> {
        let mut hits = self.finder.find(&self.devices, line, mode);
        let all = hits.clone();
        hits.retain(|hit| {
            let winners = &self.winners[hit.device];
            !all.iter()
                .any(|other| winners.contains(&other.device) && other.holds(hit))
        });
        hits.sort_by_key(|hit| (hit.own, hit.device));
        hits.into_iter()
            .map(|hit| Occurrence {
                device: self.devices[hit.device].id.clone(),
                own: hit.own.0..hit.own.1,
                span: hit.span.0..hit.span.1,
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::devices::device::Example;

    fn found(catalogue: &Catalogue, device: &Device, example: &Example) -> bool {
        let line: Vec<&Numeral> = example.line.numerals().collect();
        catalogue
            .find(&line, example.mode)
            .iter()
            .any(|found| found.device == device.id)
    }

    #[test]
    fn every_example_holds_its_device_and_no_counterexample_does() {
        let catalogue = Catalogue::built_in();
        let mut wrong = Vec::new();
        for device in catalogue.devices() {
            for example in &device.examples {
                if !found(&catalogue, device, example) {
                    wrong.push(format!("{}: not found in {}", device.id, example.line));
                }
            }
            for example in &device.counterexamples {
                if found(&catalogue, device, example) {
                    wrong.push(format!("{}: found in {}", device.id, example.line));
                }
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }

    #[test]
    fn every_spelled_out_pattern_is_found_again() {
        let catalogue = Catalogue::built_in();
        let mut wrong = Vec::new();
        for device in catalogue.devices() {
            for expansion in device.expansions() {
                let line: Vec<&Numeral> = expansion.chords().map(|c| &c.numeral).collect();
                let own = expansion.before.len()..expansion.before.len() + expansion.own.len();
                let mode = expansion.mode.unwrap_or(device.modes[0]);
                let again = catalogue.find(&line, mode);
                if !again.iter().any(|found| {
                    found.device == device.id
                        && found.own.start <= own.start
                        && own.end <= found.own.end
                }) {
                    let text: Vec<String> = line.iter().map(ToString::to_string).collect();
                    wrong.push(format!("{}: {}", device.id, text.join(" ")));
                }
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }

    #[test]
    fn the_list_holds_every_file_of_the_folder() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/devices/catalogue");
        let mut names: Vec<String> = std::fs::read_dir(folder)
            .expect("the catalogue folder is in the checkout")
            .map(|entry| entry.expect("a readable entry").file_name())
            .filter_map(|name| name.to_str()?.strip_suffix(".json").map(str::to_owned))
            .collect();
        names.sort();
        let catalogue = Catalogue::built_in();
        assert_eq!(names, catalogue.ids().collect::<Vec<_>>());
    }
}

//! Whether every device of the exercises is asked, and in how many contexts.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::case::Subject;
use super::plan::Plan;
use crate::devices::{DeviceId, Shape};

/// Which devices were asked.
#[derive(Clone, Debug, Serialize)]
pub struct Coverage {
    /// How many devices were asked.
    pub asked: usize,
    /// Devices of the exercises that no question asked.
    pub missing: Vec<DeviceId>,
    /// Devices of the catalogue that can be asked and that none of the exercises has.
    pub in_no_exercise: Vec<DeviceId>,
    pub devices: Vec<DeviceCoverage>,
}

/// How one device was asked.
#[derive(Clone, Debug, Serialize)]
pub struct DeviceCoverage {
    pub id: DeviceId,
    /// Questions made for it.
    pub asked: u32,
    /// In how many exercises.
    pub exercises: usize,
    /// Between how many different pairs of chords, the one before and the one after.
    pub contexts: usize,
}

impl Coverage {
    pub(super) fn fault(&self) -> Option<String> {
        let missing: Vec<&str> = self.missing.iter().map(DeviceId::as_str).collect();
        (!missing.is_empty()).then(|| format!("never asked: {}", missing.join(", ")))
    }
}

/// The chord before a device and the one after it.
type Surroundings = (Option<Shape>, Option<Shape>);

#[derive(Default)]
struct Occurrences {
    asked: u32,
    exercises: BTreeSet<usize>,
    contexts: BTreeSet<Surroundings>,
}

#[derive(Default)]
pub(super) struct CoverageExaminer {
    devices: BTreeMap<DeviceId, Occurrences>,
}

impl CoverageExaminer {
    pub(super) fn examine(&mut self, subject: &Subject<'_>) {
        let question = subject.question;
        let progression = &question.progression;
        let Some(found) = progression.occurrence(&question.wanted) else {
            return;
        };
        let shape = |slot: usize| {
            let slot = progression.line.slots().get(slot);
            slot.map(|slot| Shape::acting(&slot.numeral))
        };
        let before = found.own.start.checked_sub(1).and_then(shape);
        let seen = self.devices.entry(question.wanted.clone()).or_default();
        seen.asked += 1;
        seen.exercises.insert(subject.place);
        seen.contexts.insert((before, shape(found.own.end)));
    }

    pub(super) fn finish(self, plan: &Plan<'_>) -> Coverage {
        let wanted: BTreeSet<&DeviceId> = plan.drills.iter().flat_map(|d| &d.devices).collect();
        let can_be_asked = plan.catalogue.devices().iter().filter(|one| one.asked);
        Coverage {
            asked: self.devices.len(),
            missing: wanted
                .iter()
                .filter(|id| !self.devices.contains_key(**id))
                .map(|id| (*id).clone())
                .collect(),
            in_no_exercise: can_be_asked
                .map(|device| &device.id)
                .filter(|id| !wanted.contains(id))
                .cloned()
                .collect(),
            devices: self
                .devices
                .into_iter()
                .map(|(id, seen)| DeviceCoverage {
                    id,
                    asked: seen.asked,
                    exercises: seen.exercises.len(),
                    contexts: seen.contexts.len(),
                })
                .collect(),
        }
    }
}

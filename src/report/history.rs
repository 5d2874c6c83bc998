//! What is kept of a learner's entries for tables and pictures: counts, not the entries.

use std::collections::{BTreeMap, HashMap};

use jiff::tz::TimeZone;

use super::calendar::Calendar;
use super::curve::Curve;
use super::heat::Heat;
use crate::devices::DeviceId;
use crate::harmony::plain_name;
use crate::journal::Entry;
use crate::theory::Numeral;

/// A learner's answers so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    calendar: Calendar,
    /// Whether each answer to a device was wholly right, in order.
    outcomes: BTreeMap<DeviceId, Vec<bool>>,
    /// What was said for what sounded, over all devices.
    heat: Heat,
    /// The plainest form of each chord that was named: the same few come all the time.
    plain: HashMap<String, String>,
}

impl History {
    /// The zone decides which day an answer belongs to.
    pub fn fold(&mut self, entry: &Entry, zone: &TimeZone) {
        self.calendar.count(entry, zone);
        for slot in &entry.slots {
            for name in [&slot.truth, &slot.answer] {
                if !self.plain.contains_key(name) {
                    self.plain.insert(name.clone(), plain(name));
                }
            }
            self.heat
                .count(&self.plain[&slot.truth], &self.plain[&slot.answer]);
            for device in &slot.devices {
                let outcomes = self.outcomes.entry(device.clone()).or_default();
                outcomes.push(slot.credit >= 1.0);
            }
        }
    }

    #[must_use]
    pub fn calendar(&self) -> &Calendar {
        &self.calendar
    }

    #[must_use]
    pub fn heat(&self) -> &Heat {
        &self.heat
    }

    /// The learning curve of a device; none if it was never asked.
    #[must_use]
    pub fn curve(&self, device: &DeviceId) -> Option<Curve> {
        self.outcomes
            .get(device)
            .map(|outcomes| Curve::of(outcomes))
    }
}

/// A numeral in its plainest form, so that vi and vi7 are one row; other answers as they
/// are.
fn plain(text: &str) -> String {
    text.parse::<Numeral>().map_or_else(
        |_| text.to_owned(),
        |numeral| plain_name(&numeral).to_string(),
    )
}

//! How a drill has gone so far.

use std::collections::BTreeMap;

use super::event::Answered;
use crate::devices::DeviceId;

/// The answers of a drill, counted.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tally {
    /// Answered questions.
    pub questions: u32,
    /// Marked answers; a question may have several.
    pub answers: u32,
    /// Answers with the full credit.
    pub right: u32,
    /// The credit of all answers together.
    pub credit: f64,
    /// What was asked of each device; an answer may be about several.
    pub devices: BTreeMap<DeviceId, Count>,
}

/// The answers about one device.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Count {
    /// How many there are.
    pub asked: u32,
    /// How many of them are right.
    pub right: u32,
}

impl Count {
    /// How many of them are not right.
    #[must_use]
    pub fn missed(self) -> u32 {
        self.asked - self.right
    }
}

impl Tally {
    pub(super) fn count(&mut self, answered: &Answered) {
        self.questions += 1;
        for (ask, mark) in answered.question.asks.iter().zip(&answered.marks) {
            let right = u32::from(mark.tier.is_right());
            self.answers += 1;
            self.right += right;
            self.credit += mark.credit;
            for device in ask.devices() {
                let count = self.devices.entry(device.clone()).or_default();
                count.asked += 1;
                count.right += right;
            }
        }
    }

    /// The devices that were missed, the most often missed first.
    #[must_use]
    pub fn missed(&self) -> Vec<(&DeviceId, Count)> {
        let mut missed: Vec<_> = self
            .devices
            .iter()
            .map(|(device, count)| (device, *count))
            .filter(|(_, count)| count.missed() > 0)
            .collect();
        missed.sort_by_key(|(_, count)| std::cmp::Reverse(count.missed()));
        missed
    }
}

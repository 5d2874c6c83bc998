//! What is kept of a learner's entries for tables and pictures: counts, not the entries.

use std::collections::HashMap;

use jiff::tz::TimeZone;

use super::calendar::Calendar;
use super::curve::Curve;
use super::heat::Heat;
use crate::devices::DeviceId;
use crate::harmony::plain_name;
use crate::journal::ReportedEntry;
use crate::quiz::QuestionKind;
use crate::theory::Numeral;

/// A learner's answers so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    calendar: Calendar,
    /// Whether each answer to a device was wholly right, in order.
    outcomes: HashMap<String, Vec<bool>>,
    /// What was said for what sounded, over all devices.
    heat: Heat,
    /// The plainest form of each chord that was named: the same few come all the time.
    plain: HashMap<String, String>,
}

impl History {
    /// The zone decides which day an answer belongs to.
    pub fn fold(&mut self, entry: &ReportedEntry, zone: &TimeZone) {
        self.calendar.count(entry, zone);
        let kind = entry.kind.as_str().parse::<QuestionKind>();
        let is_named = kind.is_ok_and(QuestionKind::names_what_sounds);
        for slot in &entry.slots {
            if is_named {
                self.named(slot.truth.as_str(), slot.answer.as_str());
            }
            for device in &slot.devices {
                self.outcome(device.as_str(), slot.credit >= 1.0);
            }
        }
    }

    fn outcome(&mut self, device: &str, is_right: bool) {
        if let Some(outcomes) = self.outcomes.get_mut(device) {
            outcomes.push(is_right);
        } else {
            self.outcomes.insert(device.to_owned(), vec![is_right]);
        }
    }

    fn named(&mut self, truth: &str, answer: &str) {
        for name in [truth, answer] {
            if !self.plain.contains_key(name) {
                self.plain.insert(name.to_owned(), plain(name));
            }
        }
        self.heat.count(&self.plain[truth], &self.plain[answer]);
    }

    /// The answers of each day.
    #[must_use]
    pub fn calendar(&self) -> &Calendar {
        &self.calendar
    }

    /// Which chords are taken for which.
    #[must_use]
    pub fn heat(&self) -> &Heat {
        &self.heat
    }

    /// The learning curve of a device; none if it was never asked.
    #[must_use]
    pub fn curve(&self, device: &DeviceId) -> Option<Curve> {
        self.outcomes
            .get(device.as_str())
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::journal::{JournalLine, parse};

    /// Takes in an answered question of a kind, as the journal keeps it.
    fn fold(history: &mut History, kind: &str, truth: &str, answer: &str) {
        let line = format!(
            r#"{{"version":1,"id":"a","time":1760000000000,"learner":"ada","session":"a","exercise":"trial","seed":1,"index":0,"kind":"{kind}","key":"C major","line":"I","tempo":96.0,"sound":"piano","texture":"held-chords","key_setting":"cadence","answers":4,"difficulty":{{"inversion":0.0,"texture":0.0,"tempo":0.0,"similarity":0.0}},"thinking":1,"replays":0,"slots":[{{"slot":0,"devices":["minor-four"],"truth":"{truth}","function":"tonic","quality":"major","degree":"1","bass":"1","answer":"{answer}","mark":"wrong","credit":0.0,"heard_as":null}}]}}"#
        );
        match parse(&line) {
            Ok(JournalLine::Known(entry)) => history.fold(&entry, &TimeZone::UTC),
            other => panic!("not an entry: {other:?}"),
        }
    }

    #[test]
    fn only_names_of_what_sounded_are_set_against_each_other() {
        let mut history = History::default();
        for (kind, truth, answer) in [
            ("name-chords", "iv7", "ii"),
            ("which-device", "double plagal", "ii-V-I"),
            ("home", "G major", "C major"),
            ("leaves-key", "3", "1 3"),
            ("which-of-two", "the first line", "the second line"),
            ("of a later program", "x", "y"),
        ] {
            fold(&mut history, kind, truth, answer);
        }
        assert_eq!(history.heat().map(9).names, ["double plagal", "iv"]);
    }
}

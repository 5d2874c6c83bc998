//! The practice calendar: answers by day.

use std::collections::BTreeMap;

use jiff::civil::{Date, Weekday};
use jiff::tz::TimeZone;
use jiff::{Span, Timestamp};

use crate::journal::ReportedEntry;

/// The day of a time (ms since 1970, UTC) where the learner is; the last day there is for
/// times past all calendars.
#[must_use]
pub fn day(time: u64, zone: &TimeZone) -> Date {
    let time = i64::try_from(time).ok();
    let time = time.and_then(|time| Timestamp::from_millisecond(time).ok());
    zone.to_datetime(time.unwrap_or(Timestamp::MAX)).date()
}

/// Answered slots by day.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Calendar {
    days: BTreeMap<Date, u32>,
}

/// A week of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Week {
    /// Its Monday.
    pub monday: Date,
    /// Answers from Monday to Sunday.
    pub answers: [u32; 7],
}

impl Calendar {
    pub(super) fn count(&mut self, entry: &ReportedEntry, zone: &TimeZone) {
        let slots = u32::try_from(entry.slots.len()).unwrap_or(u32::MAX);
        *self.days.entry(day(entry.time, zone)).or_default() += slots;
    }

    /// Days with answers, in order.
    pub fn days(&self) -> impl Iterator<Item = (Date, u32)> {
        self.days.iter().map(|(day, answers)| (*day, *answers))
    }

    /// The last `count` weeks up to the one that holds `today`.
    #[must_use]
    pub fn weeks(&self, today: Date, count: usize) -> Vec<Week> {
        let before = |day: Date, days: i64| day.saturating_sub(Span::new().days(days));
        let since_monday = i64::from(today.weekday().since(Weekday::Monday));
        let this = before(today, since_monday);
        (0..i64::try_from(count).unwrap_or(0))
            .rev()
            .map(|ago| {
                let monday = before(this, 7 * ago);
                let mut answers = [0; 7];
                for (cell, later) in answers.iter_mut().zip(0..) {
                    let day = before(monday, -later);
                    *cell = self.days.get(&day).copied().unwrap_or(0);
                }
                Week { monday, answers }
            })
            .collect()
    }
}

impl Week {
    /// A day's warmth, 0 to 4, by its answers.
    #[must_use]
    pub fn warmth(answers: u32) -> usize {
        [1, 10, 30, 60]
            .iter()
            .filter(|least| answers >= **least)
            .count()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn midnight_is_where_the_learner_is() {
        // 29 February 2024 began at 1 709 164 800 in Greenwich.
        let late = 1_709_164_800_000 - 60_000;
        let paris = TimeZone::fixed(jiff::tz::offset(1));
        assert_eq!(day(late, &TimeZone::UTC).to_string(), "2024-02-28");
        assert_eq!(day(late, &paris).to_string(), "2024-02-29");
    }

    #[test]
    fn a_time_past_all_calendars_is_the_last_day() {
        assert_eq!(day(u64::MAX, &TimeZone::UTC).to_string(), "9999-12-30");
    }

    #[test]
    fn weeks_begin_on_monday() {
        let mut calendar = Calendar::default();
        let today = day(1_709_164_800_000, &TimeZone::UTC);
        calendar.days.insert(today, 12);
        let weeks = calendar.weeks(today, 2);
        assert_eq!(weeks[1].monday.to_string(), "2024-02-26");
        assert_eq!(weeks[1].answers, [0, 0, 0, 12, 0, 0, 0]);
        assert_eq!(weeks[0].answers, [0; 7]);
        assert_eq!(Week::warmth(12), 2);
    }
}

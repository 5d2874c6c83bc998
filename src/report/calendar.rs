//! The practice calendar: answers by day.

use std::collections::BTreeMap;
use std::fmt;

use crate::journal::Entry;

const DAY: i64 = 86_400_000;

/// A day, counted from 1 January 1970.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date(i64);

impl Date {
    /// The day of a time (ms since 1970, UTC) so many minutes east of Greenwich.
    #[must_use]
    pub fn of(time: u64, minutes_east: i32) -> Self {
        let local = i64::try_from(time).unwrap_or(i64::MAX / 2) + i64::from(minutes_east) * 60_000;
        Self(local.div_euclid(DAY))
    }

    /// 0 for Monday to 6 for Sunday.
    #[must_use]
    pub fn weekday(self) -> usize {
        // 1 January 1970 was a Thursday.
        usize::try_from((self.0 + 3).rem_euclid(7)).expect("a remainder is not negative")
    }

    /// Year, month from 1, day from 1 (Hinnant's civil_from_days).
    #[must_use]
    pub fn civil(self) -> (i64, i64, i64) {
        let days = self.0 + 719_468;
        let era = days.div_euclid(146_097);
        let of_era = days.rem_euclid(146_097);
        let year = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
        let of_year = of_era - (365 * year + year / 4 - year / 100);
        let shifted = (5 * of_year + 2) / 153;
        let month = if shifted < 10 {
            shifted + 3
        } else {
            shifted - 9
        };
        let day = of_year - (153 * shifted + 2) / 5 + 1;
        (year + era * 400 + i64::from(month <= 2), month, day)
    }
}

impl fmt::Display for Date {
    /// As ISO 8601 writes it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.civil();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
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
    pub(super) fn count(&mut self, entry: &Entry, minutes_east: i32) {
        let slots = u32::try_from(entry.slots.len()).unwrap_or(u32::MAX);
        *self
            .days
            .entry(Date::of(entry.time, minutes_east))
            .or_default() += slots;
    }

    /// Days with answers, in order.
    pub fn days(&self) -> impl Iterator<Item = (Date, u32)> {
        self.days.iter().map(|(day, answers)| (*day, *answers))
    }

    /// The last `count` weeks up to the one that holds `today`.
    #[must_use]
    pub fn weeks(&self, today: Date, count: usize) -> Vec<Week> {
        let weekday = i64::try_from(today.weekday()).expect("a week has seven days");
        let this = today.0 - weekday;
        (0..i64::try_from(count).unwrap_or(0))
            .rev()
            .map(|ago| {
                let monday = this - 7 * ago;
                let mut answers = [0; 7];
                for (cell, day) in answers.iter_mut().zip(monday..) {
                    *cell = self.days.get(&Date(day)).copied().unwrap_or(0);
                }
                Week {
                    monday: Date(monday),
                    answers,
                }
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
    fn dates_are_those_of_the_calendar() {
        // 1 January 1970 was a Thursday; 29 February 2024 a Thursday; 1 March 2000 a
        // Wednesday (any almanac).
        for (time, text, weekday) in [
            (0, "1970-01-01", 3),
            (1_709_164_800_000, "2024-02-29", 3),
            (951_868_800_000, "2000-03-01", 2),
        ] {
            let date = Date::of(time, 0);
            assert_eq!((date.to_string().as_str(), date.weekday()), (text, weekday));
        }
    }

    #[test]
    fn midnight_is_where_the_learner_is() {
        let late = 1_709_164_800_000 - 60_000;
        assert_eq!(Date::of(late, 0).to_string(), "2024-02-28");
        assert_eq!(Date::of(late, 60).to_string(), "2024-02-29");
    }

    #[test]
    fn weeks_begin_on_monday() {
        let mut calendar = Calendar::default();
        let today = Date::of(1_709_164_800_000, 0);
        calendar.days.insert(today, 12);
        let weeks = calendar.weeks(today, 2);
        assert_eq!(weeks[1].monday.to_string(), "2024-02-26");
        assert_eq!(weeks[1].answers, [0, 0, 0, 12, 0, 0, 0]);
        assert_eq!(weeks[0].answers, [0; 7]);
        assert_eq!(Week::warmth(12), 2);
    }
}

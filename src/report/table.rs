//! The tables of progress: each is one variant and one line of the registry, and says
//! what stands in its cells; how it is drawn is the reader's matter.

use jiff::civil::Date;

use super::calendar::Week;
use super::heat::Map;
use super::history::History;
use super::progress::{Change, Device, Progress};
use crate::devices::DeviceId;

/// How many weeks and chords are told.
const WEEKS: usize = 12;
const CHORDS: usize = 10;

/// What the tables are made of.
pub struct Facts<'a> {
    /// Where each device stands.
    pub progress: &'a Progress,
    /// What was answered when.
    pub history: &'a History,
    /// The day that the calendar ends on.
    pub today: Date,
    /// What a device is called.
    pub name: &'a dyn Fn(&DeviceId) -> String,
    /// Signs for nothing, little, some, much and most.
    pub signs: [&'static str; 5],
}

/// A table of progress.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Table {
    /// The devices asked so far, the lowest estimate first.
    Standings,
    /// Which device is taken for which.
    Confusions,
    /// Which answers are given more often than they are right.
    Habits,
    /// Which chord is taken for which.
    Chords,
    /// The answers of each day, a row a week.
    Days,
}

impl Table {
    /// All tables.
    pub const ALL: [Self; 5] = [
        Self::Standings,
        Self::Confusions,
        Self::Habits,
        Self::Chords,
        Self::Days,
    ];

    /// What stands above it.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Standings => "standings",
            Self::Confusions => "confused",
            Self::Habits => "said by habit",
            Self::Chords => "heard as",
            Self::Days => "answers by day",
        }
    }

    /// Its rows, the head first where it has one; none where there is nothing to tell.
    #[must_use]
    pub fn rows(self, facts: &Facts<'_>) -> Vec<Vec<String>> {
        match self {
            Self::Standings => standings(facts),
            Self::Confusions => confusions(facts),
            Self::Habits => habits(facts),
            Self::Chords => chords(&facts.history.heat().map(CHORDS), facts.signs),
            Self::Days => days(facts),
        }
    }
}

fn cells<const N: usize>(words: [&str; N]) -> Vec<String> {
    words.map(str::to_owned).to_vec()
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

fn standings(facts: &Facts<'_>) -> Vec<Vec<String>> {
    let head = cells([
        "device",
        "right",
        "chance",
        "95 % within",
        "share",
        "standing",
        "change",
    ]);
    let row = |device: &Device| {
        vec![
            (facts.name)(&device.id),
            format!("{} of {}", device.right, device.asked),
            percent(device.estimate),
            format!("{:.0} to {}", 100.0 * device.low, percent(device.high)),
            percent(device.share),
            match device.standing {
                "new" => "new: not enough answers yet".to_owned(),
                word => word.to_owned(),
            },
            device.trend.map_or_else(String::new, trend),
        ]
    };
    let asked = facts.progress.asked();
    std::iter::once(head)
        .chain(asked.into_iter().map(row))
        .collect()
}

/// A change in words, and its band in hundredths.
fn trend(change: Change) -> String {
    let word = if change.low > 0.0 {
        "rising"
    } else if change.high < 0.0 {
        "falling"
    } else {
        "no sure change"
    };
    let (low, high) = (100.0 * change.low, 100.0 * change.high);
    format!("{word} ({low:+.0} to {high:+.0})")
}

fn confusions(facts: &Facts<'_>) -> Vec<Vec<String>> {
    let confusions = facts.progress.confusions.iter();
    confusions
        .map(|confused| {
            vec![
                (facts.name)(&confused.device),
                format!("heard as {}", (facts.name)(&confused.heard_as)),
                format!("{} times", confused.times),
                format!("lately {:.0} % of its answers", 100.0 * confused.rate),
            ]
        })
        .collect()
}

fn habits(facts: &Facts<'_>) -> Vec<Vec<String>> {
    let habits = facts.progress.habits.iter();
    habits.map(|habit| vec![habit.words.clone()]).collect()
}

/// A row a chord that sounded, a column an answer, numbered alike.
fn chords(map: &Map, signs: [&str; 5]) -> Vec<Vec<String>> {
    let count = map.names.len();
    let columns: Vec<String> = (1..=count)
        .map(|column| (column % 10).to_string())
        .collect();
    let head = vec![String::new(), "sounded".to_owned(), columns.join(" ")];
    let rows = map.names.iter().enumerate().map(|(row, name)| {
        let warmth: Vec<&str> = (0..count)
            .map(|column| signs[map.warmth(row, column)])
            .collect();
        let times = match map.asked[row] {
            1 => "once".to_owned(),
            times => format!("{times} times"),
        };
        let number = format!("{:>2}", row + 1);
        vec![number, name.clone(), warmth.join(" "), times]
    });
    std::iter::once(head).chain(rows).collect()
}

fn days(facts: &Facts<'_>) -> Vec<Vec<String>> {
    let weeks = facts.history.calendar().weeks(facts.today, WEEKS);
    let rows = weeks.into_iter().map(|week| {
        let days = week
            .answers
            .map(|answers| facts.signs[Week::warmth(answers)]);
        let sum: u32 = week.answers.iter().sum();
        vec![week.monday.to_string(), days.join(" "), sum.to_string()]
    });
    let head = cells(["week of", "M T W T F S S", "answers"]);
    std::iter::once(head).chain(rows).collect()
}

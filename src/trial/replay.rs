//! A log of real answers, predicted one by one before each is seen.

use std::collections::BTreeMap;
use std::fmt;

use super::figures::Forecast;
use super::run::entry;
use crate::devices::DeviceId;
use crate::scorer::Scorer;

/// The model's forecasts for a log, and those of plain counting.
#[derive(Clone, Debug, Default)]
pub struct Replay {
    /// Learners that were looked at.
    pub learners: usize,
    /// Answers that were forecast.
    pub answers: usize,
    /// The forecasts of the model.
    pub scorer: Forecast,
    /// The share of right answers so far for each learner and item, from one imagined
    /// right and one imagined wrong answer: Beta(1, 1).
    pub counting: Forecast,
}

/// Which learners of a log to look at, by their order in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// All learners.
    All,
    /// Every other learner, the first among them.
    Odd,
    /// Every other learner, the second among them.
    Even,
}

/// A line of a log that is no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAnAnswer {
    /// From 1.
    pub line: usize,
    /// What stands there.
    pub found: String,
}

impl fmt::Display for NotAnAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "line {}: `{}` is no answer; expected a learner, an item and 0 or 1, with commas between",
            self.line,
            crate::document::shown(&self.found)
        )
    }
}

impl std::error::Error for NotAnAnswer {}

type Answers<'a> = BTreeMap<&'a str, Vec<(&'a str, bool)>>;

/// Replays a log with a head line and a line an answer: learner, item, 0 or 1. `offered`
/// is the number of answers on offer.
///
/// # Errors
/// On the first line that is no answer.
pub fn replay(log: &str, offered: u32, part: Part) -> Result<Replay, NotAnAnswer> {
    let mut learners = Answers::new();
    for (number, line) in log.lines().enumerate().skip(1) {
        let (learner, item, right) = answer(line).ok_or_else(|| NotAnAnswer {
            line: number + 1,
            found: line.to_owned(),
        })?;
        learners.entry(learner).or_default().push((item, right));
    }
    let mut replay = Replay::default();
    for (place, answers) in learners.values().enumerate() {
        let wanted = match part {
            Part::All => true,
            Part::Odd => place.is_multiple_of(2),
            Part::Even => !place.is_multiple_of(2),
        };
        if wanted {
            replay.learners += 1;
            replay.answers += answers.len();
            replay.learner(answers, offered);
        }
    }
    Ok(replay)
}

fn answer(line: &str) -> Option<(&str, &str, bool)> {
    let mut fields = line.trim_end().split(',');
    let (learner, item) = (fields.next()?, fields.next()?);
    let right = match fields.next()? {
        "0" => false,
        "1" => true,
        _ => return None,
    };
    fields.next().is_none().then_some((learner, item, right))
}

impl Replay {
    fn learner(&mut self, answers: &[(&str, bool)], offered: u32) {
        let mut items: Vec<&str> = answers.iter().map(|(item, _)| *item).collect();
        items.sort_unstable();
        items.dedup();
        let device = |item: &str| -> usize {
            items
                .binary_search(&item)
                .expect("the item is in the list made from the answers")
        };
        let ids: Vec<DeviceId> = (0..items.len())
            .map(|number| format!("item-{number}").parse().expect("a device id"))
            .collect();
        let mut scorer = Scorer::new(ids.iter().map(|id| (id.clone(), "all")));
        let mut counts = vec![(1.0, 2.0); items.len()];
        for (item, right) in answers {
            let device = device(item);
            let mut entry = entry(ids[device].as_str(), 0);
            entry.answers = offered;
            let predicted = scorer.predict(&entry)[0].expect("the item is known");
            self.scorer.add(predicted, *right);
            let (rights, all) = &mut counts[device];
            self.counting.add(*rights / *all, *right);
            let credit = f64::from(u8::from(*right));
            *rights += credit;
            *all += 1.0;
            entry.slots[0].credit = credit;
            scorer.fold_scored(&entry);
        }
    }
}

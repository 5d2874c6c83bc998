//! Whether the device can be guessed without hearing any harmony.
//!
//! Each exercise has devices of its own and says which, so a guesser who knows the
//! exercise and nothing else is right by chance: the base rate is that of naming what is
//! asked most often. It is taken within the mode, because not every device is met in both,
//! and within the first chord, the last, and those between, because some devices are what
//! they are by opening a line or by ending it. The guesser is shown everything but the
//! harmony, and learns and guesses within the same exercise, mode and end of the line. The
//! plain figures stand beside these: base rate and guesses within the exercise alone.
//!
//! Where two lines are compared the device is named, so what is guessed is which of them
//! has it; where home is asked, how far it lies from the chord that is named.

use std::collections::BTreeMap;

use serde::Serialize;

use super::case::Subject;
use super::classifier::{Row, interval, right_guesses};
use super::features::{FEATURES, NAMES, SEEN, seen};
use crate::theory::Mode;

/// How much better than by chance a guesser may be.
const ALLOWED: f64 = 0.02;

/// What can be guessed.
#[derive(Clone, Debug, Serialize)]
pub struct Leaks {
    /// Guesses; one a question.
    pub guesses: u32,
    /// Share of right guesses by the exercise, the mode and the end of the line alone.
    pub base_rate: f64,
    /// Share of right guesses by everything but the harmony, on questions not learned
    /// from, with the interval that holds the true share with 95 %.
    pub guess_rate: f64,
    pub low: f64,
    pub high: f64,
    /// Share of right guesses by the exercise alone, and by everything but the harmony
    /// where it is learned within the exercise alone.
    pub exercise_base_rate: f64,
    pub exercise_guess_rate: f64,
    /// The same by what is seen on the chart alone, and by what is heard alone.
    pub seen_rate: f64,
    pub heard_rate: f64,
    /// What each thing says by itself, the most telling first.
    pub features: Vec<Feature>,
    /// Each exercise, the one that leaks most first.
    pub exercises: Vec<ExerciseLeak>,
}

/// One thing that is seen or heard.
#[derive(Clone, Debug, Serialize)]
pub struct Feature {
    pub name: &'static str,
    /// Share of right guesses by it alone.
    pub guess_rate: f64,
}

/// One exercise.
#[derive(Clone, Debug, Serialize)]
pub struct ExerciseLeak {
    pub id: String,
    pub guesses: u32,
    pub base_rate: f64,
    pub guess_rate: f64,
    pub seen_rate: f64,
    pub heard_rate: f64,
    /// By the exercise alone, and learned within the exercise alone.
    pub exercise_base_rate: f64,
    pub exercise_guess_rate: f64,
    /// The things that say most by themselves.
    pub features: Vec<Feature>,
}

impl Leaks {
    pub(super) fn fault(&self) -> Option<String> {
        // By chance alone the rate of few guesses may lie off; then the interval says so.
        (self.guess_rate > self.base_rate + ALLOWED && self.low > self.base_rate).then(|| {
            format!(
                "the device is guessed without harmony in {:.1} %, by chance in {:.1} %",
                100.0 * self.guess_rate,
                100.0 * self.base_rate
            )
        })
    }
}

/// Guesses in one exercise, and how many were right.
#[derive(Clone, Copy, Default)]
struct LeakFigures {
    all: u32,
    base: u32,
    right: u32,
    seen: u32,
    heard: u32,
    plain_base: u32,
    plain_right: u32,
    alone: [u32; FEATURES],
}

impl LeakFigures {
    fn exercise(&self, id: String) -> ExerciseLeak {
        let rate = |count: u32| f64::from(count) / f64::from(self.all.max(1));
        let mut features = features(self.alone, self.all);
        features.truncate(TOLD);
        ExerciseLeak {
            id,
            guesses: self.all,
            base_rate: rate(self.base),
            guess_rate: rate(self.right),
            seen_rate: rate(self.seen),
            heard_rate: rate(self.heard),
            exercise_base_rate: rate(self.plain_base),
            exercise_guess_rate: rate(self.plain_right),
            features,
        }
    }
}

/// How many things are told of one exercise.
const TOLD: usize = 3;

/// What each thing says by itself, the most telling first.
fn features(alone: [u32; FEATURES], of: u32) -> Vec<Feature> {
    let mut features: Vec<Feature> = NAMES
        .into_iter()
        .zip(alone)
        .map(|(name, right)| Feature {
            name,
            guess_rate: f64::from(right) / f64::from(of.max(1)),
        })
        .collect();
    features.sort_by(|one, other| other.guess_rate.total_cmp(&one.guess_rate));
    features
}

/// Where a chord stands in its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Position {
    First,
    Between,
    Last,
}

/// An exercise by its place in the plan, a mode and a standing.
type PlaceInLine = (usize, Mode, Position);

#[derive(Default)]
pub(super) struct LeakExaminer {
    groups: BTreeMap<PlaceInLine, Vec<Row<FEATURES>>>,
    names: BTreeMap<usize, String>,
}

impl LeakExaminer {
    pub(super) fn examine(&mut self, subject: &Subject<'_>) {
        let question = subject.question;
        let class = class(subject);
        let last = question.progression.line.slots().len() - 1;
        let standing = match subject.focus() {
            _ if question.asks_for_home() => Position::Between,
            0 => Position::First,
            slot if slot == last => Position::Last,
            _ => Position::Between,
        };
        if let (Some(class), Some(seen)) = (class, seen(subject)) {
            let class = u8::try_from(class).expect("an exercise has few devices");
            let group = (subject.place, question.key().mode(), standing);
            self.groups
                .entry(group)
                .or_default()
                .push(Row { class, seen });
            let name = || subject.drill.exercise.clone();
            self.names.entry(subject.place).or_insert_with(name);
        }
    }

    pub(super) fn finish(self) -> Leaks {
        let mut exercises: BTreeMap<usize, LeakFigures> = BTreeMap::new();
        for ((place, _, _), rows) in &self.groups {
            let figures = exercises.entry(*place).or_default();
            figures.all += size(rows);
            figures.base += commonest(rows);
            figures.right += right_guesses(rows, |_| true);
            figures.seen += right_guesses(rows, |feature| feature < SEEN);
            figures.heard += right_guesses(rows, |feature| feature >= SEEN);
            for (feature, right) in figures.alone.iter_mut().enumerate() {
                *right += right_guesses(rows, |used| used == feature);
            }
        }
        for (place, rows) in self.by_exercise() {
            let figures = exercises.entry(place).or_default();
            figures.plain_base = commonest(&rows);
            figures.plain_right = right_guesses(&rows, |_| true);
        }
        let sum = |part: fn(&LeakFigures) -> u32| exercises.values().map(part).sum::<u32>();
        let (all, right) = (sum(|one| one.all), sum(|one| one.right));
        let rate = |count: u32| f64::from(count) / f64::from(all.max(1));
        let (low, high) = interval(right, all);
        let mut alone = [0; FEATURES];
        for figures in exercises.values() {
            for (sum, one) in alone.iter_mut().zip(figures.alone) {
                *sum += one;
            }
        }
        let mut rows: Vec<ExerciseLeak> = exercises
            .iter()
            .map(|(place, one)| one.exercise(self.names[place].clone()))
            .collect();
        let gain = |one: &ExerciseLeak| one.guess_rate - one.base_rate;
        rows.sort_by(|one, other| gain(other).total_cmp(&gain(one)));
        Leaks {
            guesses: all,
            base_rate: rate(sum(|one| one.base)),
            guess_rate: rate(right),
            low,
            high,
            seen_rate: rate(sum(|one| one.seen)),
            heard_rate: rate(sum(|one| one.heard)),
            exercise_base_rate: rate(sum(|one| one.plain_base)),
            exercise_guess_rate: rate(sum(|one| one.plain_right)),
            features: features(alone, all),
            exercises: rows,
        }
    }

    fn by_exercise(&self) -> BTreeMap<usize, Vec<Row<FEATURES>>> {
        let mut all: BTreeMap<usize, Vec<Row<FEATURES>>> = BTreeMap::new();
        for ((place, _, _), rows) in &self.groups {
            all.entry(*place).or_default().extend(rows);
        }
        all
    }
}

/// What is to be guessed of a question, as a number.
fn class(subject: &Subject<'_>) -> Option<usize> {
    let question = subject.question;
    let asked = question.asks.first();
    let class = asked.and_then(|ask| ask.class(question.material()));
    let devices = &subject.drill.devices;
    class.or_else(|| devices.iter().position(|device| *device == question.wanted))
}

fn size(rows: &[Row<FEATURES>]) -> u32 {
    u32::try_from(rows.len()).expect("questions are counted in 32 bits")
}

/// How many rows the commonest class has.
fn commonest(rows: &[Row<FEATURES>]) -> u32 {
    let mut counts: BTreeMap<u8, u32> = BTreeMap::new();
    for row in rows {
        *counts.entry(row.class).or_default() += 1;
    }
    counts.into_values().max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(class: impl Fn(u8) -> u8, seen: impl Fn(u8) -> u8) -> Vec<Row<FEATURES>> {
        (0..200)
            .map(|at: u8| Row {
                class: class(at),
                seen: [seen(at); FEATURES],
            })
            .collect()
    }

    fn leaks(groups: Vec<(PlaceInLine, Vec<Row<FEATURES>>)>) -> Leaks {
        let names = groups
            .iter()
            .map(|((place, _, _), _)| (*place, place.to_string()));
        LeakExaminer {
            names: names.collect(),
            groups: groups.into_iter().collect(),
        }
        .finish()
    }

    #[test]
    fn a_giveaway_is_found() {
        let told = leaks(vec![(
            (0, Mode::Major, Position::Between),
            rows(|at| at % 2, |at| at % 2),
        )]);
        assert_eq!((told.base_rate, told.guess_rate), (0.5, 1.0));
        assert!(told.low > 0.97 && told.high <= 1.0);
        assert!(told.fault().is_some());
        assert_eq!(told.features[0].guess_rate, 1.0);
    }

    #[test]
    fn what_the_exercise_and_the_mode_say_is_no_leak() {
        // One device in major, two in minor, and nothing to tell these two apart.
        let told = leaks(vec![
            (
                (0, Mode::Major, Position::Between),
                rows(|_| 0, |at| at % 7),
            ),
            (
                (0, Mode::Minor, Position::Between),
                rows(|at| 1 + at / 7 % 2, |at| at % 7),
            ),
        ]);
        assert!((0.75..0.77).contains(&told.base_rate), "{}", told.base_rate);
        assert_eq!(told.exercise_base_rate, 0.5);
        assert!(told.guess_rate < told.base_rate + ALLOWED);
        assert_eq!(told.fault(), None);
    }
}

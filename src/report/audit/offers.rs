//! Whether a pupil who never listens gains by remembering which of the names on offer turn
//! out right.
//!
//! The pupil remembers, within an exercise and a mode, how often each name was on offer and
//! how often it was right, and names what was right most often of what is on offer. What is
//! remembered of one half of the questions is tried on the other. A key on offer goes by how
//! far its tonic lies from the root of the first chord, which is told. A name that is right
//! more often than one in as many as are on offer cannot be hidden among them: the share of
//! the commonest one is the least that such a pupil can reach.

use std::collections::BTreeMap;

use serde::Serialize;

use super::case::Subject;
use super::classifier::interval;
use crate::quiz::{Ask, QuestionKind};
use crate::theory::Mode;

/// Names that are on offer less often are not told of.
const SELDOM: u32 = 30;

/// What can be gained by remembering the names on offer.
#[derive(Clone, Debug, Serialize)]
pub struct Offers {
    /// Things asked with several names on offer.
    pub guesses: u32,
    /// Share of right guesses by the number of names on offer alone.
    pub chance_rate: f64,
    /// By what is remembered, with the interval that holds the true share with 95 %, the
    /// things asked taken to be independent.
    pub guess_rate: f64,
    pub low: f64,
    pub high: f64,
    /// By the kind of question.
    pub kinds: Vec<KindOffers>,
    /// Each exercise, the one where most is gained first.
    pub exercises: Vec<ExerciseOffers>,
    /// Names that are on offer and never right, the most frequent first.
    pub never_right: Vec<OfferedName>,
}

/// One kind of question.
#[derive(Clone, Debug, Serialize)]
pub struct KindOffers {
    pub kind: String,
    pub guesses: u32,
    pub chance_rate: f64,
    pub guess_rate: f64,
}

/// One exercise.
#[derive(Clone, Debug, Serialize)]
pub struct ExerciseOffers {
    pub id: String,
    pub kind: String,
    pub guesses: u32,
    pub chance_rate: f64,
    pub guess_rate: f64,
    /// Share of the answer that is right most often.
    pub commonest: f64,
    /// Share of the offers that are never right.
    pub never_right: f64,
}

/// One name in one exercise.
#[derive(Clone, Debug, Serialize)]
pub struct OfferedName {
    pub exercise: String,
    pub name: String,
    pub offered: u32,
}

/// Names on offer, by number, and the place of the right one.
struct Offer {
    names: Vec<usize>,
    right: usize,
}

#[derive(Default)]
struct OfferGroup {
    numbers: BTreeMap<String, usize>,
    rows: Vec<Offer>,
}

/// An exercise by its place in the plan, and a mode.
type OfferPlace = (usize, Mode);

#[derive(Default)]
pub(super) struct OfferExaminer {
    groups: BTreeMap<OfferPlace, OfferGroup>,
    exercises: BTreeMap<usize, (String, QuestionKind)>,
}

impl OfferExaminer {
    pub(super) fn examine(&mut self, subject: &Subject<'_>) {
        let question = subject.question;
        for ask in &question.asks {
            let Some((names, right)) = remembered(subject, ask) else {
                continue;
            };
            let exercise = || (subject.drill.exercise.clone(), question.kind);
            self.exercises.entry(subject.place).or_insert_with(exercise);
            let place = (subject.place, question.key().mode());
            self.groups.entry(place).or_default().add(names, right);
        }
    }

    pub(super) fn finish(self) -> Offers {
        let mut exercises: BTreeMap<usize, OfferFigures> = BTreeMap::new();
        let mut never_right = Vec::new();
        for ((place, _), group) in &self.groups {
            let figures = exercises.entry(*place).or_default();
            group.count(figures);
            let (exercise, _) = &self.exercises[place];
            never_right.extend(group.never_right().map(|(name, offered)| OfferedName {
                exercise: exercise.clone(),
                name: name.to_owned(),
                offered,
            }));
        }
        never_right.retain(|name| name.offered >= SELDOM);
        never_right.sort_by_key(|name| std::cmp::Reverse(name.offered));
        let all = exercises
            .values()
            .fold(OfferFigures::default(), OfferFigures::plus);
        let (low, high) = interval(all.right, all.guesses);
        let mut kinds: BTreeMap<&str, OfferFigures> = BTreeMap::new();
        for (place, figures) in &exercises {
            let sum = kinds.entry(self.exercises[place].1.id()).or_default();
            *sum = OfferFigures::plus(std::mem::take(sum), figures);
        }
        let mut rows: Vec<ExerciseOffers> = exercises
            .iter()
            .map(|(place, figures)| {
                let (id, kind) = &self.exercises[place];
                figures.exercise(id.clone(), *kind)
            })
            .collect();
        let gain = |one: &ExerciseOffers| one.guess_rate - one.chance_rate;
        rows.sort_by(|one, other| gain(other).total_cmp(&gain(one)));
        Offers {
            guesses: all.guesses,
            chance_rate: all.rate(all.chance),
            guess_rate: all.rate(f64::from(all.right)),
            low,
            high,
            kinds: kinds
                .into_iter()
                .map(|(kind, figures)| KindOffers {
                    kind: kind.to_owned(),
                    guesses: figures.guesses,
                    chance_rate: figures.rate(figures.chance),
                    guess_rate: figures.rate(f64::from(figures.right)),
                })
                .collect(),
            exercises: rows,
            never_right,
        }
    }
}

/// The names on offer as a pupil would remember them, and which is right.
fn remembered(subject: &Subject<'_>, ask: &Ask) -> Option<(Vec<String>, usize)> {
    let remembered = ask.remembered(subject.question.material());
    remembered.filter(|(names, _)| names.len() > 1)
}

/// What a name's record promises, one right and one wrong added (Laplace).
fn promise((offered, right): (u32, u32)) -> f64 {
    f64::from(right + 1) / f64::from(offered + 2)
}

impl OfferGroup {
    fn add(&mut self, names: Vec<String>, right: usize) {
        let numbers = names.into_iter().map(|name| {
            let next = self.numbers.len();
            *self.numbers.entry(name).or_insert(next)
        });
        let names = numbers.collect();
        self.rows.push(Offer { names, right });
    }

    /// How often each name was on offer, and right, in the rows that count.
    fn record<'r>(&self, rows: impl Iterator<Item = &'r Offer>) -> Vec<(u32, u32)> {
        let mut record = vec![(0, 0); self.numbers.len()];
        for row in rows {
            for (at, name) in row.names.iter().enumerate() {
                record[*name].0 += 1;
                record[*name].1 += u32::from(at == row.right);
            }
        }
        record
    }

    fn count(&self, figures: &mut OfferFigures) {
        for half in 0..2 {
            let learned = self.rows.iter().skip(1 - half).step_by(2);
            let record = self.record(learned);
            for row in self.rows.iter().skip(half).step_by(2) {
                let promises = row.names.iter().map(|name| promise(record[*name]));
                let best = promises
                    .enumerate()
                    .max_by(|one, other| one.1.total_cmp(&other.1).then(other.0.cmp(&one.0)))
                    .map(|(at, _)| at);
                figures.guesses += 1;
                figures.right += u32::from(best == Some(row.right));
                figures.chance += 1.0 / row.names.len() as f64;
            }
        }
        let record = self.record(self.rows.iter());
        let most = record.iter().map(|(_, right)| *right).max();
        figures.commonest += most.unwrap_or(0);
        for (offered, right) in record {
            figures.offered += offered;
            figures.never += if right == 0 { offered } else { 0 };
        }
    }

    fn never_right(&self) -> impl Iterator<Item = (&str, u32)> {
        let record = self.record(self.rows.iter());
        self.numbers
            .iter()
            .filter(move |(_, number)| record[**number].1 == 0)
            .map(|(name, number)| (name.as_str(), self.offered(*number)))
    }

    fn offered(&self, name: usize) -> u32 {
        let times = self.rows.iter().filter(|row| row.names.contains(&name));
        u32::try_from(times.count()).expect("questions are counted in 32 bits")
    }
}

#[derive(Clone, Copy, Debug, Default)]
struct OfferFigures {
    guesses: u32,
    right: u32,
    /// The sum of one in as many as are on offer.
    chance: f64,
    commonest: u32,
    offered: u32,
    never: u32,
}

impl OfferFigures {
    fn plus(self, other: &Self) -> Self {
        Self {
            guesses: self.guesses + other.guesses,
            right: self.right + other.right,
            chance: self.chance + other.chance,
            commonest: self.commonest + other.commonest,
            offered: self.offered + other.offered,
            never: self.never + other.never,
        }
    }

    fn rate(&self, count: f64) -> f64 {
        count / f64::from(self.guesses.max(1))
    }

    fn exercise(&self, id: String, kind: QuestionKind) -> ExerciseOffers {
        ExerciseOffers {
            id,
            kind: kind.id().to_owned(),
            guesses: self.guesses,
            chance_rate: self.rate(self.chance),
            guess_rate: self.rate(f64::from(self.right)),
            commonest: self.rate(f64::from(self.commonest)),
            never_right: f64::from(self.never) / f64::from(self.offered.max(1)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Questions with three of four names on offer; `right` says which.
    fn figures(right: impl Fn(usize) -> usize) -> OfferFigures {
        let mut group = OfferGroup::default();
        for question in 0..400 {
            let left_out = question * 7 % 4;
            let names = (0..4).filter(|name| *name != left_out);
            let names: Vec<String> = names.map(|name| name.to_string()).collect();
            group.add(names, right(question));
        }
        let mut figures = OfferFigures::default();
        group.count(&mut figures);
        figures
    }

    #[test]
    fn who_remembers_names_gains_where_one_is_right_too_often() {
        let fair = figures(|question| question / 4 % 3);
        assert!((120..150).contains(&fair.right), "{fair:?}");
        assert!((fair.rate(fair.chance) - 1.0 / 3.0).abs() < 1e-9);
        // The first name on offer is right always: the names 0 and 1.
        let told = figures(|_| 0);
        assert_eq!(told.right, 400, "{told:?}");
        assert_eq!((told.commonest, told.offered), (300, 1200));
        // The names 2 and 3 are on offer and never right.
        assert_eq!(told.never, 600);
    }
}

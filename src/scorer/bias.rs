//! What a learner says whatever sounds.
//!
//! Who gives one answer to everything is right whenever it is the right one. What the wrong
//! answers say of a learner's habits is therefore held against the right ones: a device is
//! credited with what its answer is worth over saying it unheard (hits against false alarms,
//! as in signal detection: Green & Swets 1966; among several answers a bias for each, as in
//! the choice model of Luce 1959).

use std::collections::HashMap;

use foldhash::fast::FixedState;

use super::digest::{Offers, SlotDigest};

/// An answer counts as if it had already been said so often unheard, and been expected so
/// often.
const PRIOR: f64 = 0.5;

/// The same of typed answers, which are none of so many.
const TYPED: f64 = 8.0;

/// So few wrong answers say nothing of a habit.
const FEW: f64 = 4.0;

/// What a habit keeps from one question that offers its answer to the next.
const KEPT: f64 = 0.985;

/// A habit is told from so many times on, if an answer is said so much oftener than it is
/// right, and by so many standard deviations more than by chance.
const TIMES: f64 = 8.0;
const OFTENER: f64 = 1.5;
const SURE: f64 = 3.0;

/// An answer that is said more often than it is right.
#[derive(Clone, Debug, PartialEq)]
pub struct Bias {
    /// The answer as it is shown.
    pub answer: String,
    /// How often it was said of late.
    pub said: u32,
    /// How often it was the right one among the same questions.
    pub right: u32,
}

impl Bias {
    /// The bias in words.
    #[must_use]
    pub fn words(&self) -> String {
        let times = f64::from(self.said) / f64::from(self.right.max(1));
        let how_often = match times {
            ..1.75 => "half as often again as".to_owned(),
            1.75..2.5 => "twice as often as".to_owned(),
            _ => format!("{times:.0} times as often as"),
        };
        if self.right == 0 {
            format!("you say {} where it does not sound", self.answer)
        } else {
            format!("you say {} {how_often} it sounds", self.answer)
        }
    }
}

/// How often one answer is given, the old times faded.
#[derive(Clone, Debug, Default, PartialEq)]
struct Habit {
    name: Box<str>,
    /// Said, and right, of the questions that offered it.
    said: f64,
    right: f64,
    /// Said wrongly, and how often it would have been if all wrong answers were said alike.
    wrongly: f64,
    expected: f64,
    /// The wrong answers that might have been this one.
    chances: f64,
}

/// The habits of one learner, by their answers.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Habits {
    answers: HashMap<u64, Habit, FixedState>,
    /// Wrong answers that were typed, the old ones faded.
    typed: f64,
}

impl Habits {
    /// The chance of the right answer without hearing anything, where so many answers are
    /// left: what habit makes of a blind guess. None where nothing is known of the offers.
    pub(super) fn guess(&self, slot: &SlotDigest) -> Option<f64> {
        let right = slot.offers.first()?;
        if slot.is_typed {
            let said = self.answers.get(right).map_or(0.0, |habit| habit.wrongly);
            return Some(said / (self.typed + TYPED));
        }
        let others = slot.offers.len() - 1;
        if others == 0 {
            return Some(1.0);
        }
        let all: f64 = slot.offers.iter().map(|answer| self.weight(*answer)).sum();
        let part = self.weight(*right) / all;
        // Who does not hear a device takes it for its neighbour, unless habit is all.
        Some(part * (1.0 - (1.0 - part) / others as f64))
    }

    fn weight(&self, answer: u64) -> f64 {
        let habit = self.answers.get(&answer);
        habit.map_or(1.0, |habit| {
            (habit.wrongly + PRIOR) / (habit.expected + PRIOR)
        })
    }

    /// What part of the wrong answers that could be this one are this one, unless there are
    /// too few to say.
    pub(super) fn share(&self, answer: u64) -> f64 {
        let habit = self.answers.get(&answer);
        habit.map_or(0.0, |habit| habit.wrongly / (habit.chances + FEW))
    }

    /// Takes in an answer.
    pub(super) fn count(&mut self, slot: &SlotDigest) {
        let Some(right) = slot.offers.first() else {
            return;
        };
        let wrong = slot.credit < 1.0;
        if slot.is_typed {
            if wrong {
                self.typed = self.typed * KEPT + 1.0;
            }
            let both: Offers = [slot.said, *right].into_iter().collect();
            let both = if slot.said == *right {
                &both[..1]
            } else {
                &both
            };
            self.count_each(slot, both, 0.0);
        } else {
            let others = (slot.offers.len() - 1).max(1);
            let expected = if wrong { 1.0 / others as f64 } else { 0.0 };
            self.count_each(slot, &slot.offers, expected);
        }
    }

    fn count_each(&mut self, slot: &SlotDigest, offers: &[u64], expected: f64) {
        let wrong = slot.credit < 1.0;
        for answer in offers {
            let (is_said, is_right) = (*answer == slot.said, *answer == slot.offers[0]);
            let habit = self.answers.entry(*answer).or_default();
            if is_said && habit.name.is_empty() {
                habit.name.clone_from(&slot.answer);
            }
            habit.said = habit.said * KEPT + f64::from(u8::from(is_said));
            habit.right = habit.right * KEPT + f64::from(u8::from(is_right));
            if wrong && !is_right {
                habit.wrongly = habit.wrongly * KEPT + f64::from(u8::from(is_said));
                habit.expected = habit.expected * KEPT + expected;
                habit.chances = habit.chances * KEPT + 1.0;
            }
        }
    }

    /// The biases that the answers bear out, the strongest first.
    pub(super) fn strong(&self) -> Vec<Bias> {
        let is_strong = |habit: &&Habit| {
            let more = habit.said - habit.right;
            habit.said >= TIMES
                && habit.said >= OFTENER * habit.right
                && more >= SURE * libm::sqrt(habit.right.max(1.0))
        };
        let mut strong: Vec<&Habit> = self.answers.values().filter(is_strong).collect();
        strong.sort_by(|one, other| {
            let more = |habit: &Habit| habit.said - habit.right;
            more(other)
                .total_cmp(&more(one))
                .then(one.name.cmp(&other.name))
        });
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let whole = |count: f64| count.round() as u32;
        strong
            .into_iter()
            .map(|habit| Bias {
                answer: habit.name.to_string(),
                said: whole(habit.said),
                right: whole(habit.right),
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An answer to a question with these on offer, the right one first.
    fn slot(offers: &[u64], said: u64) -> SlotDigest {
        SlotDigest {
            devices: [0].into_iter().collect(),
            credit: f64::from(u8::from(said == offers[0])),
            heard_as: None,
            offers: offers.iter().copied().collect(),
            said,
            answer: said.to_string().into(),
            is_typed: false,
        }
    }

    #[test]
    fn an_unknown_learner_guesses_blindly() {
        let guess = Habits::default().guess(&slot(&[1, 2, 3, 4], 1));
        assert!((guess.expect("offers") - 0.25 * 0.75).abs() < 1e-12);
    }

    #[test]
    fn what_is_said_to_everything_is_right_by_habit() {
        let mut habits = Habits::default();
        for right in [1, 2, 3].into_iter().cycle().take(60) {
            let mut offers = vec![1, 2, 3, 4];
            offers.retain(|other| *other != right);
            offers.insert(0, right);
            habits.count(&slot(&offers, 1));
        }
        let guess = |offers: &[u64]| habits.guess(&slot(offers, 1)).expect("offers");
        assert!(guess(&[1, 2, 3, 4]) > 0.8, "{}", guess(&[1, 2, 3, 4]));
        assert!(guess(&[2, 1, 3, 4]) < 0.1);
        let strong = habits.strong();
        assert_eq!(strong.len(), 1);
        assert_eq!(strong[0].words(), "you say 1 3 times as often as it sounds");
    }

    #[test]
    fn slips_are_no_habit() {
        let mut habits = Habits::default();
        for question in 0..120_u64 {
            let right = question % 4;
            let said = if question % 12 == 0 {
                (question / 12 + 1) % 4
            } else {
                right
            };
            let mut offers = vec![right];
            offers.extend((0..4).filter(|other| *other != right));
            habits.count(&slot(&offers, said));
        }
        assert_eq!(habits.strong(), Vec::new());
        let guess = habits.guess(&slot(&[0, 1, 2, 3], 0)).expect("offers");
        assert!(guess < 0.35, "{guess}");
    }
}

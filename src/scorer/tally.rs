//! What is counted of one device.

use smallvec::SmallVec;

use super::model::fading;

/// How many of the last answers a trend looks at: two windows of forty.
pub(super) const REMEMBERED: u32 = 80;

/// The counts of one device.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Tally {
    pub(super) asked: u32,
    pub(super) right: u32,
    pub(super) credit: f64,
    /// When it was last asked, in milliseconds since 1970.
    pub(super) last: Option<u64>,
    /// The last answers as bits, the newest lowest, 1 for right.
    pub(super) outcomes: u128,
    /// How many of them there are.
    pub(super) remembered: u32,
    /// The answers that were right for it, by number, the old ones faded.
    pub(super) answers: SmallVec<[(u64, f64); 4]>,
    /// Its part of the recent questions, as it stood at question `turn`.
    pub(super) turns: f64,
    pub(super) turn: u64,
}

impl Tally {
    /// Counts an answer; what is said by habit, whatever sounds, shows no trend.
    pub(super) fn count(&mut self, credit: f64, time: u64, by_hearing: bool) {
        self.asked += 1;
        self.right += u32::from(credit >= 1.0);
        self.credit += credit;
        self.last = Some(self.last.map_or(time, |last| last.max(time)));
        if by_hearing {
            self.remembered = (self.remembered + 1).min(REMEMBERED);
            self.outcomes = (self.outcomes << 1) | u128::from(credit >= 1.0);
        }
    }

    /// This was the right answer.
    pub(super) fn was_asked_by(&mut self, answer: u64) {
        for (_, count) in &mut self.answers {
            *count *= fading::ANSWER;
        }
        match self.answers.iter_mut().find(|(known, _)| *known == answer) {
            Some((_, count)) => *count += 1.0,
            None => self.answers.push((answer, 1.0)),
        }
    }

    /// It was asked, wholly or as one of several, in question number `turn`.
    pub(super) fn take_turn(&mut self, part: f64, turn: u64) {
        self.turns = self.turns_at(turn) + part;
        self.turn = turn;
    }

    /// Its part of the recent questions, as of question `turn`.
    pub(super) fn turns_at(&self, turn: u64) -> f64 {
        self.turns * fading::turns(turn - self.turn)
    }

    /// How many of the `count` answers before the last `skip` were right, and of how many.
    pub(super) fn window(&self, skip: u32, count: u32) -> (u32, u32) {
        let known = self.remembered.saturating_sub(skip).min(count);
        if known == 0 {
            return (0, 0);
        }
        let mask = (1_u128 << known) - 1;
        (((self.outcomes >> skip) & mask).count_ones(), known)
    }
}

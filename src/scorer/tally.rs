//! What is counted of one device.

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
    /// Right and wrong answers, the old ones faded.
    pub(super) faded: Faded,
    /// The last answers as bits, the newest lowest, 1 for right.
    pub(super) outcomes: u128,
    /// Its part of the recent questions, as it stood at question `turn`.
    pub(super) turns: f64,
    pub(super) turn: u64,
}

/// Right and wrong answers with the old ones counting less.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Faded {
    pub(super) right: f64,
    pub(super) wrong: f64,
}

impl Tally {
    pub(super) fn count(&mut self, credit: f64, time: u64) {
        self.asked += 1;
        self.right += u32::from(credit >= 1.0);
        self.credit += credit;
        self.last = Some(self.last.map_or(time, |last| last.max(time)));
        self.faded.right = self.faded.right * fading::ANSWER + credit;
        self.faded.wrong = self.faded.wrong * fading::ANSWER + (1.0 - credit);
        self.outcomes = (self.outcomes << 1) | u128::from(credit >= 1.0);
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
        let known = self.asked.min(REMEMBERED).saturating_sub(skip).min(count);
        if known == 0 {
            return (0, 0);
        }
        let mask = (1_u128 << known) - 1;
        (((self.outcomes >> skip) & mask).count_ones(), known)
    }
}

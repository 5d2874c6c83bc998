//! Where a device stands, in numbers and in a word.

use super::fold::Scorer;
use super::observation::Response;
use super::settings::Wishes;
use super::tally::{REMEMBERED, Tally};
use crate::devices::DeviceId;

/// What is believed of one device.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// The device.
    pub device: DeviceId,
    /// The family it belongs to.
    pub family: String,
    /// Slots that asked for it.
    pub asked: u32,
    /// Of these, wholly right.
    pub right: u32,
    /// Of these, with partial credit.
    pub credit: f64,
    /// The chance of a right answer to a middling exemplar with nine answers on offer.
    pub estimate: f64,
    /// The estimate lies between these with 95 % certainty.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// The standing in one word.
    pub word: Word,
    /// The part of the questions it is due, 0 to 1, when everything may be asked.
    pub share: f64,
    /// When it was last asked, in milliseconds since 1970.
    pub last: Option<u64>,
    /// How it changed, once there are answers enough.
    pub trend: Option<Trend>,
}

/// A standing in one word. Words change cautiously; the numbers move with every answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Word {
    /// Not enough answers yet.
    New,
    /// Neither surely weak nor surely heard.
    Growing,
    /// Heard three times in four, almost surely.
    Secure,
    /// Heard less often than three times in four, almost surely.
    Weak,
    /// Was secure, and has not been asked for a month.
    Resting,
}

impl Word {
    /// The word itself.
    #[must_use]
    pub fn as_str(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Growing => "growing",
            Self::Secure => "secure",
            Self::Weak => "weak",
            Self::Resting => "resting",
        }
    }

    /// The word explained to the learner.
    #[must_use]
    pub fn meaning(self) -> &'static str {
        match self {
            Self::New => "not enough answers yet",
            Self::Growing => "neither surely weak nor surely heard",
            Self::Secure => "heard three times in four, almost surely",
            Self::Weak => "heard less often than three times in four, almost surely",
            Self::Resting => "was secure, and has not been asked for a month",
        }
    }
}

/// The newer window of answers against the one before it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trend {
    /// Right answers, and of how many.
    pub before: (u32, u32),
    /// The same in the newer window.
    pub now: (u32, u32),
    /// The difference of the two rates lies between these with 95 % certainty.
    pub low: f64,
    /// The upper end of the difference.
    pub high: f64,
}

impl Trend {
    /// Whether the answers show a change at all, and which way: +1, 0 or −1.
    #[must_use]
    pub fn direction(self) -> i32 {
        i32::from(self.low > 0.0) - i32::from(self.high < 0.0)
    }
}

/// A device is called weak or secure from this many answers on, against this rate, with
/// these certainties.
const ENOUGH: u32 = 8;
const RATE: f64 = 0.75;
const SURELY_WEAK: f64 = 0.94;
const SURELY_HEARD: f64 = 0.9;

/// No device is secure that is named where half of the others sound that are missed.
const HABIT: f64 = 0.5;

/// A secure device rests after this long, in milliseconds: 30 days.
const REST: u64 = 30 * 86_400_000;

/// A trend compares two windows of at least this many answers.
const TREND: u32 = 20;

/// What lies outside an interval of 95 % on either side.
const TAIL: f64 = 0.025;

/// How many standard deviations hold 95 %.
const WIDE: f64 = 1.959_963_984_540_054;

impl Scorer {
    /// Where every device stands at `now` (ms since 1970), in the order of the catalogue.
    #[must_use]
    pub fn standings(&self, now: u64) -> Vec<Standing> {
        let everything: Vec<usize> = (0..self.devices.len()).collect();
        let shares = self.shares(&everything, &Wishes::default(), now);
        everything
            .iter()
            .zip(shares)
            .map(|(device, share)| self.standing(*device, share, &self.reference(), now))
            .collect()
    }

    /// Where the devices of a drill stand in it: in a middling exemplar of those that it can
    /// make, with as many answers on offer, and with their parts among themselves.
    #[must_use]
    pub fn standings_within(&self, pool: &[DeviceId], wishes: &Wishes, now: u64) -> Vec<Standing> {
        let known: Vec<usize> = pool
            .iter()
            .filter_map(|id| self.digester.number(id.as_str()))
            .collect();
        let shares = self.shares(&known, wishes, now);
        let response = self.usual(&wishes.reach);
        known
            .iter()
            .zip(shares)
            .map(|(device, share)| self.standing(*device, share, &response, now))
            .collect()
    }

    fn standing(&self, device: usize, share: f64, response: &Response, now: u64) -> Standing {
        let tally = &self.tallies[device];
        let outlook = self.outlook(device, now, response);
        Standing {
            device: self.devices[device].clone(),
            family: self.families[self.family_of[device]].clone(),
            asked: tally.asked,
            right: tally.right,
            credit: tally.credit,
            estimate: outlook.expected(response),
            low: outlook.bound(TAIL, response),
            high: outlook.bound(1.0 - TAIL, response),
            word: self.word(device, response, now),
            share,
            last: tally.last,
            trend: trend(tally),
        }
    }

    /// What the answers said when the device was asked last: time alone makes nothing weak.
    fn word(&self, device: usize, response: &Response, now: u64) -> Word {
        let tally = &self.tallies[device];
        let Some(last) = tally.last.filter(|_| tally.asked >= ENOUGH) else {
            return Word::New;
        };
        let below = self.outlook(device, last, response).below(RATE, response);
        if below > SURELY_WEAK {
            Word::Weak
        } else if 1.0 - below > SURELY_HEARD && self.habit(device) < HABIT {
            let rested = now.saturating_sub(last) >= REST;
            if rested { Word::Resting } else { Word::Secure }
        } else {
            Word::Growing
        }
    }

    /// A middling exemplar with nine answers on offer.
    pub(super) fn reference(&self) -> Response {
        self.response(9, 0.0)
    }
}

/// The newer answers against the older ones, once there are enough of both.
fn trend(tally: &Tally) -> Option<Trend> {
    let window = (tally.remembered / 2).min(REMEMBERED / 2);
    if window < TREND {
        return None;
    }
    let now = tally.window(0, window);
    let before = tally.window(window, window);
    let (low, high) = difference(before, now);
    Some(Trend {
        before,
        now,
        low,
        high,
    })
}

/// The 95 % interval of the difference of two rates (Newcombe 1998, method 10: from the
/// two Wilson intervals).
fn difference(before: (u32, u32), now: (u32, u32)) -> (f64, f64) {
    let (p, p_low, p_high) = wilson(before);
    let (q, q_low, q_high) = wilson(now);
    let root = |a: f64, b: f64| libm::sqrt(a * a + b * b);
    (
        q - p - root(q - q_low, p_high - p),
        q - p + root(q_high - q, p - p_low),
    )
}

/// A rate and its Wilson (1927) interval of 95 %.
fn wilson((right, of): (u32, u32)) -> (f64, f64, f64) {
    let (n, z2) = (f64::from(of), WIDE * WIDE);
    let p = f64::from(right) / n;
    let centre = (p + z2 / (2.0 * n)) / (1.0 + z2 / n);
    let half = WIDE / (1.0 + z2 / n) * libm::sqrt(p * (1.0 - p) / n + z2 / (4.0 * n * n));
    (p, centre - half, centre + half)
}

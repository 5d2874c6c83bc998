//! What is believed of a learner, as data for programs, tables and screens.

use serde::Serialize;

use crate::devices::DeviceId;
use crate::scorer::{Bias, Confusion, Scorer, Standing};

/// All that the scorer believes, in the form that other programs rely on.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Progress {
    /// Questions answered.
    pub answers: u64,
    /// Every device, in the order of the catalogue.
    pub devices: Vec<Device>,
    /// What is taken for what.
    pub confusions: Vec<Confused>,
    /// Answers that are given more often than they are right.
    pub habits: Vec<Habit>,
}

/// One device's standing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Device {
    /// The id of the device.
    pub id: DeviceId,
    /// The family it belongs to.
    pub family: String,
    /// How often it was asked.
    pub asked: u32,
    /// How often the answer was right.
    pub right: u32,
    /// The credit of its answers together, 1 for each right one.
    pub credit: f64,
    /// The believed chance of a right answer, 0 to 1.
    pub estimate: f64,
    /// The lower end of the band around the estimate, 0 to 1.
    pub low: f64,
    /// The upper end of the band, 0 to 1.
    pub high: f64,
    /// The standing in a word.
    pub standing: &'static str,
    /// What that word means.
    #[serde(skip)]
    pub meaning: &'static str,
    /// The part of the coming questions that it gets, 0 to 1.
    pub share: f64,
    /// When it was last asked, in milliseconds since 1970.
    pub last: Option<u64>,
    /// The change from one window of answers to the next: rates and the difference's band.
    pub trend: Option<Change>,
}

/// How the rate of right answers changed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Change {
    /// The rate in the window before, 0 to 1.
    pub before: f64,
    /// The rate in the last window, 0 to 1.
    pub now: f64,
    /// The lower end of the band around the difference, −1 to 1.
    pub low: f64,
    /// The upper end of that band, −1 to 1.
    pub high: f64,
}

/// One confusion that may be named.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Confused {
    /// The device that was asked.
    pub device: DeviceId,
    /// The device that was named instead.
    pub heard_as: DeviceId,
    /// How often.
    pub times: u32,
    /// How often of all times that it was asked, 0 to 1.
    pub rate: f64,
}

/// One answer that is given more often than it is right.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Habit {
    /// The answer as it is shown.
    pub answer: String,
    /// How often it was given of late.
    pub said: u32,
    /// How often it was right among the same questions.
    pub right: u32,
    /// The same in words.
    #[serde(skip)]
    pub words: String,
}

impl Progress {
    /// The progress at `now`, in milliseconds since 1970.
    #[must_use]
    pub fn of(scorer: &Scorer, now: u64) -> Self {
        Self {
            answers: scorer.answers(),
            devices: scorer.standings(now).into_iter().map(device).collect(),
            confusions: scorer.confusions().into_iter().map(confused).collect(),
            habits: scorer.biases().into_iter().map(habit).collect(),
        }
    }

    /// The devices asked so far, the lowest estimate first.
    #[must_use]
    pub fn asked(&self) -> Vec<&Device> {
        let devices = self.devices.iter();
        let mut asked: Vec<&Device> = devices.filter(|device| device.asked > 0).collect();
        asked.sort_by(|one, other| one.estimate.total_cmp(&other.estimate));
        asked
    }
}

fn device(standing: Standing) -> Device {
    let rate = |(right, of): (u32, u32)| f64::from(right) / f64::from(of.max(1));
    Device {
        id: standing.device,
        family: standing.family,
        asked: standing.asked,
        right: standing.right,
        credit: standing.credit,
        estimate: standing.estimate,
        low: standing.low,
        high: standing.high,
        standing: standing.word.as_str(),
        meaning: standing.word.meaning(),
        share: standing.share,
        last: standing.last,
        trend: standing.trend.map(|trend| Change {
            before: rate(trend.before),
            now: rate(trend.now),
            low: trend.low,
            high: trend.high,
        }),
    }
}

fn habit(bias: Bias) -> Habit {
    Habit {
        words: bias.words(),
        answer: bias.answer,
        said: bias.said,
        right: bias.right,
    }
}

fn confused(confusion: Confusion) -> Confused {
    Confused {
        device: confusion.device,
        heard_as: confusion.heard_as,
        times: confusion.times,
        rate: confusion.rate,
    }
}

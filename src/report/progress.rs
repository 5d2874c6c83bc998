//! What is believed of a learner, as data for programs, tables and screens.

use serde::Serialize;

use crate::devices::DeviceId;
use crate::scorer::{Confusion, Scorer, Standing};

/// All that the scorer believes, in the form that other programs rely on.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Progress {
    pub answers: u64,
    pub devices: Vec<Device>,
    pub confusions: Vec<Confused>,
}

/// One device's standing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Device {
    pub id: DeviceId,
    pub family: String,
    pub asked: u32,
    pub right: u32,
    pub credit: f64,
    pub estimate: f64,
    pub low: f64,
    pub high: f64,
    pub standing: &'static str,
    /// What that word means.
    #[serde(skip)]
    pub meaning: &'static str,
    pub share: f64,
    /// When it was last asked, in milliseconds since 1970.
    pub last: Option<u64>,
    /// The change from one window of answers to the next: rates and the difference's band.
    pub trend: Option<Change>,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Change {
    pub before: f64,
    pub now: f64,
    pub low: f64,
    pub high: f64,
}

/// One confusion that may be named.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Confused {
    pub device: DeviceId,
    pub heard_as: DeviceId,
    pub times: u32,
    pub rate: f64,
}

impl Progress {
    /// The progress at `now`, in milliseconds since 1970.
    #[must_use]
    pub fn of(scorer: &Scorer, now: u64) -> Self {
        Self {
            answers: scorer.answers(),
            devices: scorer.standings(now).into_iter().map(device).collect(),
            confusions: scorer.confusions().into_iter().map(confused).collect(),
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

fn confused(confusion: Confusion) -> Confused {
    Confused {
        device: confusion.device,
        heard_as: confusion.heard_as,
        times: confusion.times,
        rate: confusion.rate,
    }
}

//! The page of progress: standings and confusions, as data for programs and as tables
//! for people.

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

/// The rows of a table of the devices asked so far, the lowest estimate first; `name`
/// says what a device is called.
pub fn standings(progress: &Progress, name: impl Fn(&DeviceId) -> String) -> Vec<Vec<String>> {
    let head = [
        "device",
        "right",
        "chance",
        "95 % within",
        "share",
        "standing",
        "change",
    ];
    let mut devices: Vec<&Device> = progress
        .devices
        .iter()
        .filter(|device| device.asked > 0)
        .collect();
    devices.sort_by(|a, b| a.estimate.total_cmp(&b.estimate));
    let percent = |share: f64| format!("{:.0} %", 100.0 * share);
    let row = |device: &&Device| {
        vec![
            name(&device.id),
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
    let rows = devices.iter().map(row);
    std::iter::once(head.map(str::to_owned).to_vec())
        .chain(rows)
        .collect()
}

/// A change in words, and its band in hundredths.
#[must_use]
pub fn trend(change: Change) -> String {
    let word = if change.low > 0.0 {
        "rising"
    } else if change.high < 0.0 {
        "falling"
    } else {
        "no sure change"
    };
    format!(
        "{word} ({:+.0} to {:+.0})",
        100.0 * change.low,
        100.0 * change.high
    )
}

/// The rows of a table of confusions.
pub fn confusions(progress: &Progress, name: impl Fn(&DeviceId) -> String) -> Vec<Vec<String>> {
    let row = |confused: &Confused| {
        vec![
            name(&confused.device),
            format!("heard as {}", name(&confused.heard_as)),
            format!("{} times", confused.times),
            format!("lately {:.0} % of its answers", 100.0 * confused.rate),
        ]
    };
    progress.confusions.iter().map(row).collect()
}

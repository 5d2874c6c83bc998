//! How long a progression takes to make: at most 0.3 ms for the median, 2 ms for the
//! slowest in a hundred.

use std::sync::LazyLock;

use divan::{Bencher, black_box};
use plagal::devices::{Catalogue, DeviceId};
use plagal::harmony::{ChordInContext, Phrasing, Request, progression};
use plagal::theory::{Key, Meter, Mode, PitchClass};

fn main() {
    divan::main();
}

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

/// Every device that is asked, each in the first of its modes.
fn wishes() -> Vec<(DeviceId, Mode)> {
    let asked = CATALOGUE.devices().iter().filter(|device| device.asked);
    asked
        .map(|device| (device.id.clone(), device.modes[0]))
        .collect()
}

fn request(wanted: &DeviceId, mode: Mode, bars: u32) -> Request<'_> {
    Request {
        wanted,
        company: &[],
        never: &[],
        key: Key::new(PitchClass::C, mode).expect("C has few accidentals"),
        meter: Meter::FourFour,
        bars,
        styles: &[],
        phrasing: Phrasing::Plain,
    }
}

/// One sample is one progression, the devices in turn.
#[divan::bench(args = [4, 8, 16, 32], sample_count = 2000, sample_size = 1)]
fn make_progression(bencher: Bencher, bars: u32) {
    let wishes = wishes();
    let mut turn = 0;
    bencher
        .with_inputs(|| {
            turn += 1;
            (turn % wishes.len(), turn as u64)
        })
        .bench_local_values(|(wish, seed)| {
            let (wanted, mode) = &wishes[wish];
            progression(black_box(&request(wanted, *mode, bars)), &CATALOGUE, seed)
        });
}

#[divan::bench]
fn judge_an_answer(bencher: Bencher) {
    let (wanted, mode) = &wishes()[0];
    let made = progression(&request(wanted, *mode, 8), &CATALOGUE, 1).expect("a progression");
    let answer = "V7/ii".parse().expect("a numeral");
    bencher.bench(|| ChordInContext::of(black_box(&made.line), 3, *mode).judge(black_box(&answer)));
}

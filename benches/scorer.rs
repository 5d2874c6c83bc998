//! How fast answers are read, folded in and followed by a choice.

use divan::{Bencher, counter::ItemsCount};
use plagal::devices::{Catalogue, DeviceId};
use plagal::journal::{Entry, JournalLine, ScoredEntry, parse, print};
use plagal::scorer::{Scorer, Wishes};

fn main() {
    divan::main();
}

const LINE: &str = r#"{"version":1,"id":"0199c0ffee0-0123456789abcdef-3","time":1760000000123,"learner":"ada","session":"0199c0ffee0-0123456789abcdef","exercise":"borrowed-colours","seed":184467,"index":3,"kind":"name-chords","key":"Eb major","line":"Imaj7 | IVadd6 | ivadd6 | I %","tempo":96.0,"sound":"upright","texture":"held","key_setting":"cadence","answers":9,"difficulty":{"inversion":0.25,"texture":0.0,"tempo":0.4,"similarity":0.75},"thinking":4210,"replays":1,"slots":[{"slot":2,"devices":["minor-four"],"truth":"ivadd6","function":"borrowed subdominant","quality":"minor","degree":"4","bass":"4","answer":"bVII7","mark":"near","credit":0.5,"heard_as":"backdoor-dominant"}]}"#;

const LINES: usize = 10_000;

fn devices() -> Vec<DeviceId> {
    let catalogue = Catalogue::built_in();
    catalogue
        .devices()
        .iter()
        .map(|device| device.id.clone())
        .collect()
}

fn scorer() -> Scorer {
    let catalogue = Catalogue::built_in();
    let devices = catalogue.devices().iter();
    Scorer::new(devices.map(|device| (device.id.clone(), device.family.name())))
}

/// A journal in which every device is asked and heard as the next one half of the time.
fn lines() -> Vec<String> {
    let Ok(JournalLine::Known(entry)) = parse::<Entry>(LINE) else {
        panic!("the line is of today's format");
    };
    let devices = devices();
    (0..LINES)
        .map(|number| {
            let mut entry = entry.clone();
            entry.time += number as u64 * 30_000;
            let slot = &mut entry.slots[0];
            slot.devices = vec![devices[number % devices.len()].clone()];
            slot.credit = (number % 2) as f64;
            slot.heard_as =
                (number % 2 == 0).then(|| devices[(number + 1) % devices.len()].clone());
            print(&entry).trim_end().to_owned()
        })
        .collect()
}

fn glance(line: &str) -> ScoredEntry<'_> {
    match parse::<ScoredEntry>(line) {
        Ok(JournalLine::Known(glance)) => glance,
        other => panic!("expected an answer, found {other:?}"),
    }
}

#[divan::bench]
fn read_lines_at_a_glance(bencher: Bencher) {
    let lines = lines();
    bencher.counter(ItemsCount::new(LINES)).bench_local(|| {
        lines
            .iter()
            .map(|line| glance(line).slots.len())
            .sum::<usize>()
    });
}

#[divan::bench]
fn fold_glances(bencher: Bencher) {
    let lines = lines();
    let glances: Vec<ScoredEntry> = lines.iter().map(|line| glance(line)).collect();
    bencher.counter(ItemsCount::new(LINES)).bench_local(|| {
        let mut scorer = scorer();
        for glance in &glances {
            scorer.fold_scored(glance);
        }
        scorer
    });
}

#[divan::bench]
fn fold_one_and_choose_the_next(bencher: Bencher) {
    let pool = devices();
    let mut scorer = scorer();
    let lines = lines();
    let mut glances = lines.iter().map(|line| glance(line)).cycle();
    bencher.counter(ItemsCount::new(1_usize)).bench_local(|| {
        let glance = glances.next().expect("it goes round");
        scorer.fold_scored(&glance);
        scorer.next(&pool, &Wishes::default(), glance.time, 7)
    });
}

//! How often words say what is not so: simulated answers, looked at one by one.

use plagal::devices::DeviceId;
use plagal::journal::{Difficulty, FORMAT, KeySetting, ScoredEntry, ScoredSlot};
use plagal::scorer::{Scorer, Word};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

const ANSWERS: u64 = 60;
const REPLAYS: u64 = 2000;

/// Whether a learner who hears a device with this chance is ever called by this word.
fn is_ever(word: Word, chance: f64, seed: u64) -> bool {
    let device: DeviceId = "minor-four".parse().expect("a device id");
    let mut scorer = Scorer::new([(device.clone(), "mixture")]);
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    (0..ANSWERS).any(|time| {
        scorer.fold_scored(&ScoredEntry {
            version: FORMAT,
            time: time * 60_000,
            learner: "ada".into(),
            key_setting: KeySetting::Cadence,
            answers: 9,
            difficulty: Difficulty::default(),
            explained: 0,
            slots: vec![ScoredSlot {
                devices: vec![device.as_str().into()].into(),
                credit: f64::from(u8::from(random.random_bool(chance))),
                heard_as: None,
                ..ScoredSlot::default()
            }]
            .into(),
        });
        scorer.standings(time * 60_000)[0].word == word
    })
}

fn share(word: Word, chance: f64) -> f64 {
    let hits = (0..REPLAYS).filter(|seed| is_ever(word, chance, *seed));
    hits.count() as f64 / REPLAYS as f64
}

#[test]
fn who_hears_four_in_five_is_seldom_called_weak() {
    let wrongly = share(Word::Weak, 0.80);
    println!("called weak at a true .80: {wrongly}");
    assert!(wrongly <= 0.03, "{wrongly}");
}

#[test]
fn who_hears_every_other_one_is_found_out() {
    let rightly = share(Word::Weak, 0.50);
    println!("called weak at a true .50: {rightly}");
    assert!(rightly >= 0.9, "{rightly}");
}

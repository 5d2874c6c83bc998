//! Whether what comes can be told before it is heard, in drills of few devices of which one
//! is weak.

use plagal::devices::DeviceId;
use plagal::journal::{Difficulty, FORMAT, KeySetting, ScoredEntry, ScoredSlot};
use plagal::scorer::{Choice, Scorer, Wishes};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

const QUESTIONS: u64 = 300;

/// Questions after which the weak device is known.
const SETTLED: usize = 60;

/// Asks a learner who hears the first device in this part of its questions, and the others
/// in this part; every choice goes to `each`, with the scorer before the answer.
fn drill(
    count: usize,
    (weak, other): (f64, f64),
    seed: u64,
    mut each: impl FnMut(&Scorer, &[DeviceId], &Choice, u64),
) {
    let pool: Vec<DeviceId> = (0..count)
        .map(|number| format!("device-{number}").parse().expect("an id"))
        .collect();
    let mut scorer = Scorer::new(pool.iter().map(|id| (id.clone(), "one family")));
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    for turn in 0..QUESTIONS {
        let now = turn * 30_000;
        let wishes = Wishes::default();
        let draw = seed * 1000 + turn;
        let choice = scorer.next(&pool, &wishes, now, draw).expect("a device");
        each(&scorer, &pool, &choice, now);
        let chance = if choice.device == pool[0] {
            weak
        } else {
            other
        };
        let right = random.random_bool(chance);
        let slot = ScoredSlot {
            devices: vec![choice.device.as_str().into()].into(),
            credit: f64::from(u8::from(right)),
            ..ScoredSlot::default()
        };
        scorer.fold_scored(&ScoredEntry {
            version: FORMAT,
            time: now,
            learner: "ada".into(),
            key_setting: KeySetting::Cadence,
            answers: 5,
            difficulty: Difficulty::default(),
            explained: 0,
            slots: vec![slot].into(),
        });
    }
}

/// In what part of the steps "the weak one, then another, then the weak one" is right, and
/// "the one that came two before".
fn foretold(count: usize, hearing: (f64, f64)) -> (f64, f64) {
    let (mut turns, mut echoes, mut steps) = (0, 0, 0);
    for seed in 0..8 {
        let mut asked = Vec::new();
        drill(count, hearing, seed, |_, pool, choice, _| {
            let place = pool.iter().position(|id| *id == choice.device);
            asked.push(place.expect("from the pool"));
        });
        for three in asked[SETTLED..].windows(3) {
            steps += 1;
            turns += u32::from((three[1] == 0) != (three[2] == 0));
            echoes += u32::from(three[0] == three[2]);
        }
    }
    let part = |times: u32| f64::from(times) / f64::from(steps);
    (part(turns), part(echoes))
}

#[test]
fn the_weak_one_and_the_others_do_not_take_turns() {
    for count in 3..=6 {
        for hearing in [(0.3, 0.95), (0.5, 0.85), (0.8, 0.8)] {
            let (turns, echoes) = foretold(count, hearing);
            println!("{count} devices, {hearing:?}: turns {turns:.2}, echoes {echoes:.2}");
            assert!(turns <= 0.60, "{count} {hearing:?}: {turns}");
            assert!(echoes <= 0.60, "{count} {hearing:?}: {echoes}");
        }
    }
}

#[test]
fn the_exemplar_is_the_same_whatever_device_comes() {
    for count in 3..=6 {
        let (mut explained, mut others) = (0, 0);
        drill(count, (0.3, 0.9), 3, |scorer, pool, choice, now| {
            for seed in 0..12 {
                let wishes = Wishes::default();
                let other = scorer.next(pool, &wishes, now, seed).expect("a device");
                others += u32::from(other.device != choice.device);
                let (one, other) = (choice.exemplar, other.exemplar);
                assert_eq!(one.difficulty, other.difficulty);
                assert_eq!(one.hold_key_and_sound, other.hold_key_and_sound);
                assert_eq!(one.explain, other.explain);
            }
            explained += u32::from(choice.exemplar.explain);
        });
        assert!(explained > 0 && others > 0, "{count}");
    }
}

//! The laws of merging, on journals made by chance: whatever is merged into whatever, in
//! any order and however often, the same answers are there, and none is missing. What an
//! answer is, is told here by plain JSON, apart from the program's own reading.
//! `PLAGAL_MERGES` says how many sets of journals are tried.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use plagal::host::journal_file::merge;
use rand::seq::{IndexedRandom, SliceRandom};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use serde_json::{Value, json};

/// An answer as some program writes it: ids repeat, as older programs made them.
fn answer(random: &mut ChaCha8Rng) -> Value {
    let index = random.random_range(0..3);
    let mut slot = json!({
        "slot": 1, "devices": ["minor-four"], "truth": "iv", "function": "", "quality": "",
        "degree": "4", "bass": "4", "answer": (["iv", "IV"].choose(random)), "mark": "right",
        "credit": 1.0,
    });
    let mut answer = json!({
        "version": 1, "id": format!("s-{index}"), "session": "s", "index": index,
        "time": 1_760_000_000_000_u64 + random.random_range(0..4_u64),
        "learner": (["ada", "ben"].choose(random)), "exercise": "borrowed", "seed": 7,
        "kind": "name-chords", "key": "G", "line": "IV iv I", "tempo": 96.0, "sound": "upright",
        "texture": "held", "key_setting": "tonic", "answers": 9, "thinking": 900, "replays": 0,
        "difficulty": {"inversion": 0.5, "texture": 0.0, "tempo": 0.5, "similarity": 0.5},
    });
    match random.random_range(0..8) {
        // Before explanations were counted, and where nothing else was heard.
        0 | 1 => {}
        2 => slot["heard_as"] = Value::Null,
        3 => slot["heard_as"] = "backdoor-dominant".into(),
        4 => answer["explained"] = 0.into(),
        5 => answer["explained"] = 2.into(),
        // A newer program's, which need not look like ours.
        6 => answer["version"] = 2.into(),
        _ => answer = json!({"version": 3, "id": format!("s-{index}"), "more": index % 2}),
    }
    if answer.get("learner").is_some() {
        answer["slots"] = json!([slot]);
    }
    answer
}

/// What the answer is, however it is written.
fn identity(line: &str) -> Option<String> {
    let mut answer: Value = serde_json::from_str(line.trim_start_matches('\u{feff}')).ok()?;
    let object = answer.as_object_mut()?;
    object.get("id")?;
    if object["version"] == 1 {
        object.entry("explained").or_insert(0.into());
        for slot in object.get_mut("slots")?.as_array_mut()? {
            slot.as_object_mut()?
                .entry("heard_as")
                .or_insert(Value::Null);
        }
    }
    Some(answer.to_string())
}

fn answers(path: &Path) -> BTreeSet<String> {
    let text = fs::read_to_string(path).unwrap_or_default();
    text.lines().filter_map(identity).collect()
}

/// A journal with damage in it, and perhaps a last line that was cut short.
fn journal(pool: &[Value], random: &mut ChaCha8Rng) -> String {
    let mut text = String::new();
    if random.random_bool(0.1) {
        text.push('\u{feff}');
    }
    for _ in 0..random.random_range(0..8) {
        match random.random_range(0..12) {
            0 => text += "nonsense\n",
            1 => text += "{\"version\":1,\"id\":\"s-0\"}\n",
            2 => text += "\n",
            _ => text += &format!("{}\n", pool.choose(random).expect("a pool of answers")),
        }
    }
    if let Some(torn) = pool.choose(random) {
        let torn = torn.to_string();
        // All of it is cut off, a part, or the line feed alone.
        text += &torn[..random.random_range(0..=torn.len())];
    }
    text
}

struct Folder(PathBuf);

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

#[test]
fn any_order_of_merging_ends_with_the_same_answers() {
    let sets = std::env::var("PLAGAL_MERGES").ok();
    let sets = sets.and_then(|sets| sets.parse().ok()).unwrap_or(20);
    let folder = Folder(std::env::temp_dir().join(format!("plagal-laws-{}", std::process::id())));
    fs::create_dir_all(&folder.0).expect("a folder for the test");
    let (mut journals, mut most) = (0, 0);
    for seed in 0..sets {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let pool: Vec<Value> = (0..10).map(|_| answer(&mut random)).collect();
        let texts: Vec<String> = (0..4).map(|_| journal(&pool, &mut random)).collect();
        journals += texts.len();
        let path = |name: usize| folder.0.join(format!("{name}.jsonl"));
        let mut all = BTreeSet::new();
        for (name, text) in texts.iter().enumerate() {
            fs::write(path(name), text).expect("room");
            all.extend(answers(&path(name)));
        }
        most = most.max(all.len());
        let mut order: Vec<usize> = (0..texts.len()).collect();
        for (into, own) in texts.iter().enumerate() {
            // Into each of them, the others in some order, some of them again.
            fs::write(path(into), own).expect("room");
            order.shuffle(&mut random);
            for from in order
                .iter()
                .chain(&order[..2])
                .filter(|from| **from != into)
            {
                let before = answers(&path(into));
                let gift = answers(&path(*from));
                let merged = merge(&path(into), &path(*from)).expect("room");
                let new: Vec<_> = gift.difference(&before).collect();
                assert_eq!(merged.added, new.len(), "seed {seed}: {new:?}");
                assert!(
                    fs::read_to_string(path(into))
                        .is_ok_and(|text| text.ends_with('\n') || text.is_empty())
                );
            }
            assert_eq!(answers(&path(into)), all, "seed {seed}, into {into}");
            fs::write(path(into), own).expect("room");
            let _ = fs::remove_file(folder.0.join(format!("{into}.jsonl.torn")));
        }
        // And into each other, until nothing is new.
        for _ in 0..2 {
            for into in 0..texts.len() {
                for from in (0..texts.len()).filter(|from| *from != into) {
                    merge(&path(into), &path(from)).expect("room");
                }
            }
        }
        for into in 0..texts.len() {
            assert_eq!(answers(&path(into)), all, "seed {seed}, each into {into}");
        }
    }
    assert!(most > 4, "the journals hold answers");
    println!("{journals} journals, none of their answers missing");
}

//! A journal folded on many threads is the journal folded line by line.

use std::fmt::Write;
use std::fs;

use plagal::devices::DeviceId;
use plagal::host::journal_file::{fold_journal, read_entries};
use plagal::scorer::Scorer;

const DEVICES: [&str; 5] = [
    "minor-four",
    "backdoor-dominant",
    "flat-six",
    "dominant-of-two",
    "dominant-of-five",
];

fn scorer() -> Scorer {
    let families = ["mixture", "mixture", "mixture", "applied", "applied"];
    let devices = DEVICES.map(|id| id.parse::<DeviceId>().expect("a device id"));
    Scorer::new(devices.into_iter().zip(families))
}

fn line(number: usize, learner: &str) -> String {
    let (device, heard_as) = (DEVICES[number % 5], DEVICES[(number + 1) % 5]);
    let credit = [0.0, 1.0, 0.5, 1.0, 1.0, 0.0, 1.0][number % 7];
    let time = 1_760_000_000_000_u64 + number as u64 * 40_000;
    format!(
        r#"{{"version":1,"id":"s-{number}","time":{time},"learner":"{learner}","session":"s","exercise":"borrowed-colours","seed":7,"index":{number},"kind":"name-chords","key":"G","line":"IV iv I","tempo":96.0,"sound":"upright","texture":"held","key_setting":"tonic","answers":9,"difficulty":{{"inversion":0.1,"texture":0.2,"tempo":0.5,"similarity":0.5}},"thinking":900,"replays":0,"slots":[{{"slot":1,"devices":["{device}"],"truth":"iv","function":"borrowed subdominant","quality":"minor","degree":"4","bass":"4","answer":"iv","mark":"right","credit":{credit:?},"heard_as":"{heard_as}"}}]}}"#
    )
}

#[test]
fn many_threads_give_the_same_scorer_bit_for_bit() {
    let folder = std::env::temp_dir().join(format!("plagal-fold-{}", std::process::id()));
    fs::create_dir_all(&folder).expect("a folder for the test");
    let path = folder.join("journal.jsonl");
    // Several blocks, with another learner, a newer line and damage far down.
    let mut text = String::new();
    for number in 0..9_000 {
        let learner = if number % 3 == 0 { "ben" } else { "ada" };
        writeln!(text, "{}", line(number, learner)).expect("text can be written to");
    }
    text += "{\"version\":3}\n\nnonsense\n";
    writeln!(text, "{}", line(9_000, "ada")).expect("text can be written to");
    assert!(text.len() > 3 << 20, "more than three blocks");
    fs::write(&path, &text).expect("room");

    let mut line_by_line = scorer();
    let read = read_entries(&path).expect("readable");
    for entry in read.entries.iter().filter(|entry| entry.learner == "ada") {
        line_by_line.fold(entry);
    }
    let mut at_once = scorer();
    let folded = fold_journal(&path, "ada", &mut at_once).expect("readable");
    assert_eq!(at_once, line_by_line);
    assert_eq!((folded.questions, folded.others), (6_001, 3_000));
    assert_eq!((folded.newer, folded.faults), (1, 1));
    assert_eq!(folded.first_fault.map(|(line, _)| line), Some(9_003));

    let mut nobody = scorer();
    let missing = fold_journal(&folder.join("none"), "ada", &mut nobody).expect("no file yet");
    assert_eq!((missing.questions, nobody), (0, scorer()));
    fs::remove_dir_all(&folder).expect("it was made above");
}

//! `plagal progress` and `plagal journal`, from a journal on disk to text and JSON.

use std::fmt::Write;
use std::path::PathBuf;
use std::process::{Command, Output};

fn line(number: usize, credit: f64, heard_as: &str) -> String {
    let time = 1_760_000_000_000_u64 + number as u64 * 40_000;
    let device = ["minor-four", "flat-six"][number % 2];
    format!(
        r#"{{"version":1,"id":"s-{number}","time":{time},"learner":"ada","session":"s","exercise":"borrowed-colours","seed":7,"index":{number},"kind":"name-chords","key":"G","line":"IV iv I","tempo":96.0,"sound":"upright","texture":"held","key_setting":"cadence","answers":9,"difficulty":{{"inversion":0.5,"texture":0.5,"tempo":0.5,"similarity":0.5}},"thinking":900,"replays":0,"slots":[{{"slot":1,"devices":["{device}"],"truth":"iv","function":"borrowed, of the subdominant","quality":"minor","degree":"4","bass":"4","answer":"bVII7","mark":"wrong","credit":{credit:?},"heard_as":{heard_as}}}]}}"#
    )
}

/// A journal of its own, gone with the test.
struct Journal(PathBuf);

impl Journal {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("plagal-{name}-{}.jsonl", std::process::id()));
        let mut text = String::new();
        for number in 0..40 {
            // The minor four is taken for the backdoor, the flat six is heard.
            let (credit, heard_as) = [(0.0, r#""backdoor-dominant""#), (1.0, "null")][number % 2];
            writeln!(text, "{}", line(number, credit, heard_as)).expect("text can be written to");
        }
        std::fs::write(&path, text).expect("room");
        Self(path)
    }

    fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_plagal"));
        command
            .args(arguments)
            .arg("--journal")
            .arg(&self.0)
            .args(["--audio", "off", "--color", "never"])
            .env("PLAGAL_HOME", std::env::temp_dir().join("plagal-no-home"));
        command
    }

    fn run(&self, arguments: &[&str]) -> Output {
        let mut command = self.command(arguments);
        command.output().expect("the binary runs")
    }

    fn text(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        assert!(output.status.success(), "{output:?}");
        String::from_utf8(output.stdout).expect("text")
    }
}

impl Drop for Journal {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}

#[test]
fn json_has_the_fields_that_others_rely_on() {
    let journal = Journal::new("progress-json");
    let text = journal.text(&["progress", "--learner", "ada", "--json"]);
    assert_eq!(text.lines().count(), 1);
    let page: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(page["answers"], 40);
    let devices = page["devices"].as_array().expect("a list");
    let device = |id: &str| {
        devices
            .iter()
            .find(|device| device["id"] == id)
            .expect("known")
    };
    let four = device("minor-four");
    assert_eq!((&four["asked"], &four["right"]), (&20.into(), &0.into()));
    assert_eq!(four["standing"], "weak");
    assert_eq!(device("flat-six")["right"], 20);
    let number = |name: &str| four[name].as_f64().expect("a number");
    assert!(number("low") < number("estimate") && number("estimate") < number("high"));
    let shares: f64 = devices
        .iter()
        .filter_map(|device| device["share"].as_f64())
        .sum();
    assert!((shares - 1.0).abs() < 1e-9);
    assert_eq!(page["confusions"][0]["heard_as"], "backdoor-dominant");
    assert_eq!(page["confusions"][0]["times"], 20);
}

#[test]
fn the_page_names_standings_and_confusions() {
    let journal = Journal::new("progress-page");
    let text = journal.text(&["progress", "--learner", "ada", "--ascii"]);
    assert!(text.starts_with("40 answers, 2 of "), "{text}");
    assert!(text.contains("weak") && text.contains("20 times"), "{text}");
    assert!(text.is_ascii(), "{text}");
    let curve = journal.text(&["progress", "minor-four", "--learner", "ada", "--ascii"]);
    assert!(
        curve.contains("  100 % ") && curve.contains("    0 % oo"),
        "{curve}"
    );
    let nobody = journal.text(&["progress", "--learner", "nobody"]);
    assert!(nobody.starts_with("0 answers"), "{nobody}");
}

#[test]
fn answers_can_be_taken_out_and_forgotten() {
    let journal = Journal::new("progress-out");
    let csv = journal.text(&["journal", "export"]);
    assert_eq!(csv.matches("\r\n").count(), 41);
    assert!(csv.contains(r#","borrowed, of the subdominant","#), "{csv}");
    let lines = journal.text(&["journal", "export", "--json"]);
    let kept = std::fs::read_to_string(&journal.0).expect("readable");
    assert_eq!(lines, kept, "what is taken out could be put back");
    let told = journal.text(&["journal", "forget", "ada", "--json"]);
    assert_eq!(told, "{\"forgotten\":40}\n");
    assert_eq!(std::fs::read_to_string(&journal.0).expect("readable"), "");
}

/// The first answer came at 08:53 in Greenwich on 9 October 2025, the evening before
/// twelve hours west of it.
#[test]
fn a_day_is_a_day_where_the_learner_is() {
    let journal = Journal::new("progress-day");
    for (zone, date) in [("UTC0", "2025-10-09"), ("<-12>12", "2025-10-08")] {
        let mut command = journal.command(&["journal", "export"]);
        let output = command.env("TZ", zone).output().expect("the binary runs");
        let csv = String::from_utf8(output.stdout).expect("text");
        let first = csv.lines().nth(1).expect("a row under the head");
        assert_eq!(first.split(',').nth(1), Some(date), "{zone}: {first}");
    }
}

#[test]
fn several_learners_share_a_journal() {
    let journal = Journal::new("learners");
    let ben = line(99, 1.0, "null").replace("\"ada\"", "\"ben\"");
    let from = journal.0.with_extension("other");
    std::fs::write(&from, format!("{ben}\n")).expect("room");
    let gift = from.to_str().expect("a plain path");
    let merged: serde_json::Value =
        serde_json::from_str(&journal.text(&["journal", "merge", gift, "--json"])).expect("JSON");
    assert_eq!((&merged["added"], &merged["known"]), (&1.into(), &0.into()));
    let again = journal.text(&["journal", "merge", gift]);
    assert!(
        again.contains("0 answers added, 1 were there already"),
        "{again}"
    );
    std::fs::remove_file(&from).expect("it is there");
    let learners: serde_json::Value =
        serde_json::from_str(&journal.text(&["journal", "learners", "--json"])).expect("JSON");
    let answers = |at: usize| {
        let held = &learners["learners"][at];
        (held["learner"].clone(), held["answers"].clone())
    };
    assert_eq!(answers(0), ("ada".into(), 40.into()));
    assert_eq!(answers(1), ("ben".into(), 1.into()));
    let table = journal.text(&["journal", "learners"]);
    assert!(
        table.contains("ben      1        2025-10-09  2025-10-09"),
        "{table}"
    );
    let rows = |arguments: &[&str]| journal.text(arguments).lines().count();
    assert_eq!(rows(&["journal", "export"]), 1 + 41);
    assert_eq!(rows(&["journal", "export", "--learner", "ben"]), 1 + 1);
    let bad = journal.run(&["progress", "--learner", " ben"]);
    assert_eq!(bad.status.code(), Some(2));
    let missing = journal.run(&["journal", "merge", "/no/such/journal"]);
    assert_eq!(missing.status.code(), Some(66), "{missing:?}");
}

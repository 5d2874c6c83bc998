//! A call that touches the journal fails, or the program is killed at it or in the middle of
//! a write: for every such call of a drill, a merge and a forgetting. The calls are caught
//! by a library put before the C library (`tests/faults/shim.c`).
//!
//! After each, every answer whose mark was shown is in the journal, in the rescue file or
//! printed; none of another learner is gone; no file of answers may be read by others.
//! Without a C compiler the test says so and stops, and fails if `CI=true`.

use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;

struct Place(PathBuf);

impl Drop for Place {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

impl Place {
    fn new() -> Option<Self> {
        let place =
            Self(std::env::temp_dir().join(format!("plagal-faults-{}", std::process::id())));
        fs::create_dir_all(&place.0).expect("a folder for the test");
        let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/faults/shim.c");
        let compiled = Command::new("cc")
            .args(["-shared", "-fPIC", "-O1", "-w", "-o"])
            .args([&place.0.join("shim.so"), &source])
            .arg("-ldl")
            .status();
        if compiled.is_ok_and(|status| status.success()) {
            return Some(place);
        }
        assert!(std::env::var("CI").is_err(), "no C compiler");
        eprintln!("no C compiler here: not tested");
        None
    }

    fn at(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    /// The program in its shim, with files that nobody's mask protects.
    fn run(
        &self,
        arguments: &[&str],
        input: &str,
        number: usize,
        how: &str,
        everywhere: bool,
    ) -> Output {
        let below = if everywhere {
            self.at("disk")
        } else {
            self.at("disk/data")
        };
        let mut run = Command::new("sh")
            .args([
                "-c",
                "umask 0; exec \"$0\" \"$@\"",
                env!("CARGO_BIN_EXE_plagal"),
            ])
            .args(arguments)
            .env_clear()
            .env("PATH", "/usr/bin:/bin")
            .env("PLAGAL_AUDIO", "off")
            .env("PLAGAL_HOME", self.at("disk/home"))
            .env("TMPDIR", self.at("disk/tmp"))
            .env("PLAGAL_JOURNAL", self.at("disk/data/journal.jsonl"))
            .env("LD_PRELOAD", self.at("shim.so"))
            .env("FAULT_BELOW", below)
            .env("FAULT_AT", number.to_string())
            .env("FAULT_HOW", how)
            .env("FAULT_REACHED", self.at("reached"))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program runs");
        let pipe = run.stdin.take().expect("standard input is piped");
        let _ = (&pipe).write_all(input.as_bytes());
        drop(pipe);
        run.wait_with_output().expect("it ends")
    }

    /// Sets the place up, with a journal if there is one.
    fn fresh(&self, journal: Option<&str>) {
        let _ = fs::remove_dir_all(self.at("disk"));
        let _ = fs::remove_file(self.at("reached"));
        for folder in ["disk/home", "disk/tmp"] {
            fs::create_dir_all(self.at(folder)).expect("room");
        }
        if let Some(text) = journal {
            fs::create_dir_all(self.at("disk/data")).expect("room");
            let path = self.at("disk/data/journal.jsonl");
            fs::write(&path, text).expect("room");
            fs::set_permissions(path, fs::Permissions::from_mode(0o600)).expect("own file");
        }
    }

    fn reached(&self) -> bool {
        self.at("reached").exists()
    }

    /// All answers in journal and rescue files, by learner and index.
    fn kept(&self) -> BTreeSet<(String, u64)> {
        let mut kept = BTreeSet::new();
        for folder in ["disk/data", "disk/home", "disk/tmp"] {
            for file in fs::read_dir(self.at(folder))
                .into_iter()
                .flatten()
                .flatten()
            {
                let path = file.path();
                let mode = file.metadata().expect("it is there").permissions().mode();
                assert_eq!(mode & 0o077, 0, "{} can be read by others", path.display());
                if path
                    .extension()
                    .is_some_and(|extension| extension == "jsonl")
                {
                    let bytes = fs::read(&path).expect("it can be read");
                    kept.extend(answers(&String::from_utf8_lossy(&bytes)));
                }
            }
        }
        kept
    }
}

fn answers(text: &str) -> BTreeSet<(String, u64)> {
    let values = text
        .lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).ok());
    values
        .filter_map(|answer| {
            answer.get("slots")?;
            Some((
                answer["learner"].as_str()?.to_owned(),
                answer["index"].as_u64()?,
            ))
        })
        .collect()
}

fn line(learner: &str, index: u64) -> String {
    let line = r#"{"version":1,"id":"a-0","time":1760000000123,"learner":"ada","session":"a","exercise":"x","seed":7,"index":0,"kind":"name-chords","key":"G","line":"IV iv I","tempo":96.0,"sound":"piano","texture":"held","key_setting":"tonic","answers":9,"difficulty":{"inversion":0.0,"texture":0.0,"tempo":0.5,"similarity":0.5},"thinking":900,"replays":0,"slots":[{"slot":1,"devices":["minor-four"],"truth":"iv","function":"","quality":"","degree":"4","bass":"4","answer":"iv","mark":"right","credit":1.0,"heard_as":null}]}"#;
    line.replace("ada", learner)
        .replace(r#""index":0"#, &format!(r#""index":{index}"#))
        + "\n"
}

const HOW: [&str; 4] = ["kill", "tear", "fail", "full"];

/// Tries a command at every call until it makes no more; gives the number of points.
fn every(
    place: &Place,
    journal: Option<&str>,
    arguments: &[&str],
    check: &dyn Fn(&Output, &str),
) -> usize {
    let mut points = 0;
    for (how, everywhere) in HOW.iter().flat_map(|how| [(*how, false), (*how, true)]) {
        for number in 1.. {
            place.fresh(journal);
            let output = place.run(arguments, &"1\n".repeat(40), number, how, everywhere);
            check(
                &output,
                &format!("{arguments:?} {how} {number} {everywhere}"),
            );
            if !place.reached() {
                break;
            }
            points += 1;
        }
    }
    points
}

#[test]
fn no_failing_call_and_no_kill_costs_an_answer() {
    let Some(place) = Place::new() else { return };
    let torn = format!("{}{}", line("ben", 0), &line("ada", 5)[..90]);
    let drill = [
        "drill",
        "first-cadences",
        "--json",
        "--seed",
        "5",
        "--questions",
        "2",
    ];
    let mut points = 0;
    for journal in [None, Some(torn.as_str())] {
        points += every(&place, journal, &drill, &|output, what| {
            let out = String::from_utf8_lossy(&output.stdout);
            let questions = out.matches("\"event\":\"mark\"").count() as u64;
            let mut kept = place.kept();
            kept.extend(answers(&String::from_utf8_lossy(&output.stderr)));
            for index in 0..questions {
                assert!(
                    kept.contains(&("pupil".to_owned(), index)),
                    "{what}: {output:?}"
                );
            }
            assert!(
                journal.is_none() || kept.contains(&("ben".to_owned(), 0)),
                "{what}"
            );
        });
    }
    let rescued = place.at("rescued.jsonl");
    fs::write(&rescued, line("ada", 0) + &line("cleo", 1)).expect("room");
    let own = line("ben", 0) + &line("ben", 1) + &line("ada", 5)[..90];
    let merge = ["journal", "merge", rescued.to_str().expect("a plain path")];
    points += every(&place, Some(&own), &merge, &|output, what| {
        let kept = place.kept();
        assert!(
            (0..2).all(|index| kept.contains(&("ben".to_owned(), index))),
            "{what}"
        );
        let all = kept.contains(&("ada".to_owned(), 0)) && kept.contains(&("cleo".to_owned(), 1));
        assert!(!output.status.success() || all, "{what}: {output:?}");
    });
    let both = line("ben", 0) + &line("ada", 0) + &line("ben", 1) + &line("ada", 5)[..90];
    points += every(
        &place,
        Some(&both),
        &["journal", "forget", "ada"],
        &|output, what| {
            let kept = place.kept();
            assert!(
                (0..2).all(|index| kept.contains(&("ben".to_owned(), index))),
                "{what}"
            );
            let gone = !kept.contains(&("ada".to_owned(), 0));
            assert!(!output.status.success() || gone, "{what}: {output:?}");
        },
    );
    assert!(points > 300, "the calls were caught: {points}");
    println!("{points} points, no answer lost");
}

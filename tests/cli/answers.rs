//! Where answers go: each has an id of its own, and none vanishes without a word.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn drill(set: impl FnOnce(&mut Command) -> &mut Command) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_plagal"));
    command
        .args(["drill", "first-cadences", "--json", "--seed", "5"])
        .args(["--questions", "2"])
        .env_clear()
        .env("PLAGAL_AUDIO", "off")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    let mut run = set(&mut command).spawn().expect("the program runs");
    let input = run.stdin.take().expect("standard input is piped");
    let _ = (&input).write_all(b"1\n1\n1\n1\n1\n1\n1\n1\n");
    drop(input);
    run.wait_with_output().expect("the program ends")
}

fn temporary(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("plagal-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder for the test");
    folder
}

fn told(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn marks(output: &Output) -> usize {
    String::from_utf8_lossy(&output.stdout)
        .matches("\"event\":\"mark\"")
        .count()
}

#[test]
fn without_a_home_it_is_said_that_no_answer_is_kept() {
    let output = drill(|command| command);
    assert!(output.status.success(), "{output:?}");
    assert!(told(&output).contains("answers are not kept"), "{output:?}");
    assert!(told(&output).contains("--journal FILE"), "{output:?}");
}

#[test]
fn answers_that_no_folder_takes_are_printed_to_be_kept() {
    let folder = temporary("answers-nowhere");
    let file = folder.join("file");
    fs::write(&file, "").expect("room");
    // No folder can be made below a file.
    let below = |name: &str| file.join(name);
    let output = drill(|command| {
        command
            .env("PLAGAL_JOURNAL", below("journal.jsonl"))
            .env("PLAGAL_HOME", below("home"))
            .env("TMPDIR", below("tmp"))
    });
    assert_eq!(output.status.code(), Some(73));
    let told = told(&output);
    assert!(told.contains("journal.jsonl`: Not a directory"), "{told}");
    assert!(
        told.contains(".jsonl`: Not a directory (os error 20); nor to"),
        "{told}"
    );
    let lines: Vec<&str> = told
        .lines()
        .filter(|line| line.contains("\"session\""))
        .collect();
    assert!(marks(&output) > 0);
    assert_eq!(lines.len(), 2);
    // And they can be taken in.
    let kept = folder.join("kept.jsonl");
    fs::write(&kept, lines.join("\n")).expect("room");
    assert_eq!(merged(&folder.join("journal.jsonl"), &kept), 2);
    fs::remove_dir_all(&folder).expect("it was made above");
}

fn merged(journal: &Path, from: &Path) -> u64 {
    let output = Command::new(env!("CARGO_BIN_EXE_plagal"))
        .args(["journal", "merge", "--json", "--journal"])
        .args([journal, from])
        .output()
        .expect("the program runs");
    let told: serde_json::Value = serde_json::from_slice(&output.stdout).expect("one object");
    told["added"].as_u64().expect("a number")
}

#[cfg(target_os = "linux")]
#[test]
fn a_device_that_is_full_is_told_as_a_full_disk() {
    let folder = temporary("answers-full");
    let output = drill(|command| {
        command
            .env("PLAGAL_JOURNAL", "/dev/full")
            .env("PLAGAL_HOME", &folder)
    });
    assert_eq!(output.status.code(), Some(73));
    let told = told(&output);
    assert!(
        told.contains("not saved to `/dev/full`: the disk is full"),
        "{told}"
    );
    fs::remove_dir_all(&folder).expect("it was made above");
}

#[cfg(target_os = "linux")]
#[test]
fn a_limit_on_files_costs_no_answer() {
    let folder = temporary("answers-limit");
    let mut run = Command::new("sh")
        .args(["-c", "ulimit -f 2; exec \"$0\" \"$@\""])
        .args([env!("CARGO_BIN_EXE_plagal"), "drill", "first-cadences"])
        .args(["--json", "--seed", "5", "--questions", "6"])
        .env_clear()
        .env("PLAGAL_AUDIO", "off")
        .env("PLAGAL_JOURNAL", folder.join("journal.jsonl"))
        .env("PLAGAL_HOME", &folder)
        .env("TMPDIR", &folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the shell runs");
    let input = run.stdin.take().expect("standard input is piped");
    let _ = (&input).write_all("1\n".repeat(20).as_bytes());
    drop(input);
    let output = run.wait_with_output().expect("the program ends");
    assert_eq!(output.status.code(), Some(73), "{output:?}");
    let files = fs::read_dir(&folder).expect("it was made above").flatten();
    let mut kept = told(&output);
    for file in files {
        kept.push('\n');
        kept += &String::from_utf8_lossy(&fs::read(file.path()).expect("it can be read"));
    }
    assert!(
        !kept.contains("File exists"),
        "the cause is the limit: {kept}"
    );
    let kept = crate::place::answers(&kept);
    assert_eq!((marks(&output), kept.len()), (6, 6), "{kept:?}");
    fs::remove_dir_all(&folder).expect("it was made above");
}

#[test]
fn a_line_without_an_answer_is_not_taken_in() {
    let folder = temporary("answers-none");
    let none = folder.join("none.jsonl");
    fs::write(&none, "{\"version\":1,\"id\":\"a-0\"}\n").expect("room");
    let output = Command::new(env!("CARGO_BIN_EXE_plagal"))
        .args(["journal", "merge", "--journal"])
        .args([&folder.join("journal.jsonl"), &none])
        .output()
        .expect("the program runs");
    assert_eq!(output.status.code(), Some(65), "{output:?}");
    assert!(told(&output).contains("it holds no answer"), "{output:?}");
    fs::remove_dir_all(&folder).expect("it was made above");
}

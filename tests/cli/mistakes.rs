//! What a stranger gets wrong, and whether the message puts it right.

use std::fs;
use std::path::PathBuf;

use crate::run::{command, plagal, run};

/// A folder of its own, taken away with the value.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path =
            std::env::temp_dir().join(format!("plagal-mistakes-{name}-{}", std::process::id()));
        fs::create_dir_all(&path).expect("the temporary folder takes folders");
        Self(path)
    }

    fn file(&self, name: &str, text: &str) -> String {
        let path = self.0.join(name);
        fs::write(&path, text).expect("the folder takes files");
        path.to_str().expect("the path is text").to_owned()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

#[test]
fn a_number_that_is_none_is_answered_with_its_range() {
    for (arguments, expected) in [
        (["drill", "--seed", "-1"], "from 0 to 18446744073709551615"),
        (
            ["drill", "--seed", "first"],
            "from 0 to 18446744073709551615",
        ),
        (["drill", "--questions", "0"], "from 1 to 500"),
        (["audit", "--count", "many"], "from 1 to 10000000"),
    ] {
        let run = plagal(&arguments);
        assert_eq!(run.code, 2, "{arguments:?}");
        let whole = format!("expected a whole number {expected}");
        assert!(run.err.contains(&whole), "{}", run.err);
    }
}

#[test]
fn an_exercise_beside_the_one_who_asks_is_pointed_at() {
    let folder = Folder::new("beside");
    folder.file("this-week.json", "{}");
    let asked = run(command(&["question", "this-week"]).current_dir(&folder.0));
    assert_eq!(asked.code, 66);
    assert!(
        asked.err.contains("did you mean `this-week.json`?"),
        "{}",
        asked.err
    );
    let json = plagal(&["question", "this-weak", "--json"]).error_json();
    assert_eq!(
        json["error"]["expected"],
        "an id that `plagal exercises` lists, or a file that ends in `.json`"
    );
}

#[test]
fn a_learner_whose_name_is_mistaken_is_not_said_to_be_forgotten() {
    let run = plagal(&["journal", "forget", "nobody"]);
    assert_eq!(run.code, 66);
    assert!(
        run.err.contains("there is no learner `nobody`"),
        "{}",
        run.err
    );
}

#[test]
fn a_file_without_answers_is_not_merged_in_silence() {
    let folder = Folder::new("merged");
    let no_journal = folder.file("exercise.json", "{\n\"id\": \"x\"\n}\n");
    let journal = folder.0.join("journal.jsonl");
    let journal = journal.to_str().expect("the path is text");
    let run = plagal(&["journal", "merge", &no_journal, "--journal", journal]);
    assert_eq!(run.code, 65, "{}", run.out);
    assert!(run.err.contains("holds no answer"), "{}", run.err);
    let empty = folder.file("empty.jsonl", "");
    assert_eq!(
        plagal(&["journal", "merge", &empty, "--journal", journal]).code,
        0
    );
}

#[test]
fn the_manual_tells_of_the_commands_of_the_journal() {
    let manual = plagal(&["manual"]);
    assert_eq!(manual.code, 0);
    for command in ["export", "learners", "merge", "forget"] {
        let heading = format!("plagal journal {command}");
        assert!(manual.out.contains(&heading), "{heading}");
    }
}

#[test]
fn a_name_like_none_that_is_known_is_answered_with_where_they_are_listed() {
    let line = ["render", "IV | I", "--key", "C", "-o", "/no/such/file.wav"];
    for (option, list) in [("--sound", "sounds"), ("--texture", "textures")] {
        let run = plagal(&[&line[..], &[option, "qqq"]].concat());
        assert_eq!(run.code, 66, "{}", run.err);
        let list = format!("expected an id that `plagal {list}` lists");
        assert!(run.err.contains(&list), "{}", run.err);
    }
}

#[test]
#[cfg(unix)]
fn a_journal_is_merged_from_standard_input_by_either_name() {
    use std::process::Stdio;

    let folder = Folder::new("piped");
    let drill = |journal: &str| {
        let arguments = [
            "drill",
            "first-cadences",
            "--plain",
            "--json",
            "--seed",
            "3",
        ];
        let mut drill =
            command(&[&arguments[..], &["--audio", "off", "--journal", journal]].concat());
        let mut drill = drill
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .spawn()
            .expect("it runs");
        let mut input = drill.stdin.take().expect("it is piped");
        std::io::Write::write_all(&mut input, b"1\n2\n1\n").expect("it reads");
        drop(input);
        assert!(drill.wait().expect("it ends").success());
    };
    let from = folder.file("from.jsonl", "");
    drill(&from);
    let answers = std::fs::read_to_string(&from).expect("it was written");
    let count = answers.lines().count();
    assert!(count > 0);
    for (number, name) in ["-", "/dev/stdin"].into_iter().enumerate() {
        let into = folder.file(&format!("into-{number}.jsonl"), "");
        let mut merge = command(&["journal", "merge", name, "--journal", &into]);
        let mut merge = merge.stdin(Stdio::piped()).spawn().expect("it runs");
        let mut input = merge.stdin.take().expect("it is piped");
        std::io::Write::write_all(&mut input, answers.as_bytes()).expect("it reads");
        drop(input);
        assert!(merge.wait().expect("it ends").success(), "{name}");
        let merged = std::fs::read_to_string(&into).expect("it is there");
        assert_eq!(merged.lines().count(), count, "{name}");
    }
}

//! Drills line by line: every form of answer, as a pupil or a script types it.

use std::io::Write;
use std::process::{Command, Output, Stdio};

use crate::run::scratch;

/// A drill of one question for a pupil nobody knows: the same question every time.
fn drill(exercise: &str, json: bool, lines: &str) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_plagal"));
    command
        .args([
            "drill",
            exercise,
            "--plain",
            "--seed",
            "5",
            "--questions",
            "1",
        ])
        .args(json.then_some("--json"))
        .env_clear()
        .env("PLAGAL_HOME", "/no/such/home")
        .env("PLAGAL_JOURNAL", "/dev/null")
        .env("PLAGAL_AUDIO", "off")
        // Such a journal keeps nothing, and what is rescued must not lie about.
        .env("TMPDIR", scratch())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    let mut run = command.spawn().expect("the program runs");
    let input = run.stdin.take().expect("standard input is piped");
    // A drill that ends early closes its input.
    let _ = (&input).write_all(lines.as_bytes());
    drop(input);
    run.wait_with_output().expect("the program ends")
}

fn events(output: &Output) -> Vec<serde_json::Value> {
    String::from_utf8_lossy(&output.stdout)
        .lines()
        .map(|line| serde_json::from_str(line).expect("an object a line"))
        .collect()
}

fn shown(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn told(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// The right answers to the first question, learnt by answering `wrong` to all of it.
fn truths(exercise: &str, wrong: &str) -> Vec<String> {
    let marked = events(&drill(exercise, true, wrong));
    let truths: Vec<String> = marked
        .iter()
        .filter(|event| event["event"] == "mark")
        .map(|mark| mark["truth"].as_str().expect("a truth").to_owned())
        .collect();
    assert!(!truths.is_empty(), "{exercise} marks nothing: {marked:?}");
    truths
}

#[test]
fn chords_outside_the_key_are_numbers_in_one_line() {
    let truth = truths("out-of-the-key", "1\n").join("");
    let open = shown(&drill("out-of-the-key", false, ""));
    assert!(open.contains("| 1 | 2 "), "{open}");
    assert!(open.contains("numbers of the chords"), "{open}");
    let right = drill("out-of-the-key", false, &format!("{truth}\n"));
    assert!(shown(&right).contains("1 of 1 answers right"), "{truth}");
    let all: Vec<String> = (1..=5).map(|number| number.to_string()).collect();
    let wrong = drill("out-of-the-key", true, &format!("{}\n", all.join(", ")));
    let marks = events(&wrong);
    let mark = marks.iter().find(|event| event["event"] == "mark");
    assert_eq!(mark.expect("a mark")["answer"], "1 2 3 4 5");
}

#[test]
fn hearing_again_and_slips_of_the_pen_answer_nothing() {
    let truth = truths("out-of-the-key", "1\n").join("");
    for slip in [
        "again",
        "",
        "bass",
        "foo",
        "1 99",
        "0",
        "1 foo",
        "\u{1b}[2J",
    ] {
        let output = drill("out-of-the-key", false, &format!("{slip}\n{truth}\n"));
        assert!(
            shown(&output).contains("1 of 1 answers right"),
            "after {slip:?}: {}",
            shown(&output)
        );
        assert!(!told(&output).contains('\u{1b}'), "{slip:?}");
    }
    let chord = told(&drill(
        "out-of-the-key",
        false,
        "chord 2\nchord\nchord 77\n",
    ));
    assert!(
        chord.contains("there is no such chord; expected a number from 1 to"),
        "{chord}"
    );
    let told = told(&drill("out-of-the-key", false, "1 99\n"));
    assert!(
        told.contains("`99` is no chord's number; expected numbers from 1 to"),
        "{told}"
    );
}

#[test]
fn a_key_and_a_line_are_named_in_words_or_by_number() {
    for exercise in ["where-is-home", "easily-confused"] {
        let truth = truths(exercise, "1\n").join("");
        for typed in [truth.clone(), truth.to_uppercase(), truth.to_lowercase()] {
            let output = drill(exercise, false, &format!("{typed}\n"));
            assert!(shown(&output).contains("1 of 1 answers right"), "{typed}");
        }
        let output = drill(exercise, false, &format!("99\nsomewhere\n{truth}\n"));
        assert!(shown(&output).contains("1 of 1 answers right"));
        assert!(told(&output).contains("`99` is not an answer; expected one of those on offer"));
        assert!(told(&output).contains("`somewhere` is not an answer"));
    }
}

#[test]
fn several_chords_are_answered_in_one_line_or_in_many() {
    let all = "1 ".repeat(20);
    let open = shown(&drill("roads-to-the-dominant", false, ""));
    let asked = open.matches('?').count();
    assert!(asked > 1, "{open}");
    let wrong = "1\n".repeat(asked);
    let truths = truths("roads-to-the-dominant", &wrong);
    assert_eq!(truths.len(), asked);
    let right = format!("{asked} of {asked} answers right");
    let one_line = drill(
        "roads-to-the-dominant",
        false,
        &format!("{}\n", truths.join(" ")),
    );
    assert!(shown(&one_line).contains(&right), "{}", shown(&one_line));
    let many = drill(
        "roads-to-the-dominant",
        false,
        &format!("{}\n", truths.join("\n")),
    );
    assert!(shown(&many).contains(&right), "{}", shown(&many));
    // Nothing of a line with too many is taken, and nothing after a misread numeral.
    let corrected = format!("{all}\n{} what {all}\n", truths[0]);
    let corrected = drill(
        "roads-to-the-dominant",
        false,
        &format!("{corrected}{} what\n{}\n", truths[0], truths[1..].join(" ")),
    );
    assert!(shown(&corrected).contains(&right), "{}", shown(&corrected));
    assert!(told(&corrected).contains(&format!("holds 20 answers; expected at most {asked}")));
    assert!(told(&corrected).contains("`what`"), "{}", told(&corrected));
}

#[test]
fn a_chart_shows_what_is_given() {
    let chart = shown(&drill("twelve-bars", false, ""));
    let chart = chart
        .lines()
        .find(|line| line.starts_with('|'))
        .expect("a chart");
    assert!(chart.contains('?') && chart.contains("I7"), "{chart}");
    assert_eq!(
        chart
            .split('|')
            .filter(|bar| !bar.trim().is_empty())
            .count(),
        12,
        "{chart}"
    );
    let question = &events(&drill("twelve-bars", true, ""))[0];
    let slots = question["slots"].as_array().expect("slots");
    for slot in slots {
        assert_eq!(slot["asked"] == true, slot["given"].is_null(), "{slot}");
    }
    let home = &events(&drill("where-is-home", true, ""))[0];
    let prompt = home["prompt"].as_str().expect("a prompt");
    assert!(prompt.starts_with("The first chord is "), "{prompt}");
}

#[test]
fn a_mark_tells_what_was_passed_over_and_what_was_taken_for_home() {
    let truth = truths("out-of-the-key", "1\n").join("");
    let inside = if truth == "1" { "2" } else { "1" };
    let wrong = shown(&drill(
        "out-of-the-key",
        false,
        &format!("{inside} {truth}\n"),
    ));
    assert!(wrong.contains("In the key, and marked: "), "{wrong}");
    assert!(!wrong.contains("You passed over"), "{wrong}");
    let home = truths("where-is-home", "1\n").join("");
    let right = shown(&drill("where-is-home", false, &format!("{home}\n")));
    assert!(!right.contains("You named"), "{right}");
    let open = &events(&drill("where-is-home", true, ""))[0];
    let prompt = open["prompt"].as_str().expect("a prompt");
    let first = prompt.trim_start_matches("The first chord is ");
    let names = first.split(". Which").next().expect("names");
    let accidental = |sign: char| matches!(sign, 'b' | '#');
    let root = |name: &str| {
        let end = name[1..].find(|sign| !accidental(sign));
        name[..end.map_or(name.len(), |end| end + 1)].to_owned()
    };
    let roots: Vec<String> = names.split(" or ").map(root).collect();
    let offers = open["offers"][0].as_array().expect("keys on offer");
    for key in offers.iter().map(|key| key.as_str().expect("a key")) {
        let said = shown(&drill("where-is-home", false, &format!("{key}\n")));
        let is_root = roots.iter().any(|root| key.split(' ').next() == Some(root));
        assert_eq!(
            said.contains("which you took for home"),
            key != home && is_root,
            "{key}, {prompt}: {said}"
        );
    }
}

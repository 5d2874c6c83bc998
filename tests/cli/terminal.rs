//! The program in a real terminal, end to end. Needs tmux; says so and stops without it.

use std::path::{Path, PathBuf};

use plagal::host::journal_file::read_entries;

use crate::tmux::Tmux;

/// The program in a window, or nothing where there is no tmux.
fn run(name: &str, arguments: &[&str]) -> Option<Tmux> {
    let terminal = Tmux::open(name)?;
    let home = terminal.folder.display().to_string();
    let journal = journal(&terminal).display().to_string();
    let kept = ["--home", &home, "--journal", &journal, "--audio", "off"];
    let program = [env!("CARGO_BIN_EXE_plagal")];
    terminal.run(&[&program[..], arguments, &kept].concat());
    Some(terminal)
}

fn journal(terminal: &Tmux) -> PathBuf {
    terminal.folder.join("journal.jsonl")
}

fn answers(journal: &Path) -> usize {
    read_entries(journal)
        .expect("the journal can be read")
        .entries
        .len()
}

#[test]
fn a_pupil_begins_answers_leaves_and_finds_the_answers_kept() {
    let Some(terminal) = run("pupil", &[]) else {
        return;
    };
    terminal.wait_for("Hear what each chord does");
    terminal.press(&["Enter"]);
    terminal.wait_for("1 of 12");
    terminal.press(&["1"]);
    terminal.wait_for("It was ");
    assert_eq!(
        answers(&journal(&terminal)),
        1,
        "on disk before the mark is shown"
    );
    terminal.press(&["Enter"]);
    terminal.wait_for("2 of 12");
    terminal.press(&["?"]);
    terminal.wait_for("Help");
    terminal.press(&["x"]);
    terminal.press(&["Escape"]);
    terminal.wait_for("The drill is over");
    terminal.press(&["p"]);
    terminal.wait_for("/1");
    terminal.press(&["Escape"]);
    terminal.wait_for("Hear what each chord does");
    terminal.press(&["q"]);
    terminal.wait_for_end();
    assert_eq!(answers(&journal(&terminal)), 1);
}

#[test]
fn two_drills_of_one_sitting_share_no_id() {
    let Some(terminal) = run("sitting", &[]) else {
        return;
    };
    for drill in 1..=2 {
        terminal.wait_for("Hear what each chord does");
        terminal.press(&["Enter"]);
        terminal.wait_for("1 of 12");
        terminal.press(&["1"]);
        terminal.wait_for("It was ");
        terminal.press(&["Escape"]);
        terminal.wait_for("The drill is over");
        terminal.press(&["Enter"]);
        assert_eq!(answers(&journal(&terminal)), drill);
    }
    terminal.wait_for("Hear what each chord does");
    terminal.press(&["q"]);
    terminal.wait_for_end();
    let entries = read_entries(&journal(&terminal))
        .expect("it can be read")
        .entries;
    let [one, other] = entries.as_slice() else {
        panic!("two answers: {entries:?}");
    };
    assert_eq!((one.index, other.index), (0, 0), "the first of each drill");
    assert_eq!(one.session, other.session);
    assert_ne!(one.id, other.id);
    // And so another journal takes in both, once.
    let merge = |told: &str| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_plagal"))
            .args(["journal", "merge", "--journal"])
            .args([&terminal.folder.join("other.jsonl"), &journal(&terminal)])
            .output()
            .expect("the program runs");
        let out = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(out.contains(told), "{out}");
    };
    merge("2 answers added, 0 were there");
    merge("0 answers added, 2 were there");
}

#[test]
fn a_drill_begins_at_once_and_takes_typed_numerals() {
    let arguments = ["drill", "mixed-colours", "--seed", "5", "--questions", "2"];
    let Some(terminal) = run("typed", &arguments) else {
        return;
    };
    terminal.wait_for("1 of 2");
    terminal.press(&["i", "v", "z", "Enter"]);
    terminal.wait_for("cannot be read");
    terminal.press(&["C-c"]);
    terminal.wait_for_end();
}

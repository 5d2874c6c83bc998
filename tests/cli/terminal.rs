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

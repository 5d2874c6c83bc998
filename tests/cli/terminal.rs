//! The program in a real terminal, end to end. Needs tmux; says so and stops without it.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use crate::needs::missing;
use plagal::host::journal_file::read_entries;

/// A tmux server of our own with one window of 80 by 24.
struct Terminal {
    socket: String,
    folder: PathBuf,
}

impl Terminal {
    /// Runs the program, or gives nothing where there is no tmux.
    fn run(name: &str, arguments: &[&str]) -> Option<Self> {
        if Command::new("tmux").arg("-V").output().is_err() {
            missing("tmux");
            return None;
        }
        let socket = format!("plagal-{name}-{}", std::process::id());
        let folder = std::env::temp_dir().join(&socket);
        std::fs::create_dir_all(&folder).expect("a folder for the journal");
        let terminal = Self { socket, folder };
        let home = terminal.folder.display().to_string();
        let journal = terminal.journal().display().to_string();
        let program = env!("CARGO_BIN_EXE_plagal");
        let mut command = vec![
            "new-session",
            "-d",
            "-s",
            "s",
            "-x",
            "80",
            "-y",
            "24",
            program,
        ];
        command.extend(arguments);
        command.extend(["--home", &home, "--journal", &journal, "--audio", "off"]);
        terminal.tmux(&command);
        Some(terminal)
    }

    fn journal(&self) -> PathBuf {
        self.folder.join("journal.jsonl")
    }

    fn tmux(&self, arguments: &[&str]) -> String {
        let output = Command::new("tmux")
            .env("LC_ALL", "C.UTF-8")
            .args(["-L", &self.socket, "-f", "/dev/null", "-u"])
            .args(arguments)
            .output()
            .expect("tmux runs");
        String::from_utf8_lossy(&output.stdout).into_owned()
    }

    fn press(&self, keys: &[&str]) {
        let mut arguments = vec!["send-keys", "-t", "s"];
        arguments.extend(keys);
        self.tmux(&arguments);
    }

    /// Waits for a text and gives the screen.
    fn wait_for(&self, text: &str) -> String {
        let start = Instant::now();
        loop {
            let screen = self.tmux(&["capture-pane", "-p", "-t", "s"]);
            if screen.contains(text) {
                return screen;
            }
            assert!(
                start.elapsed() < Duration::from_secs(20),
                "no `{text}` in\n{screen}"
            );
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    fn has_ended(&self) -> bool {
        self.tmux(&["list-sessions"]).is_empty()
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        self.tmux(&["kill-server"]);
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

fn answers(journal: &Path) -> usize {
    read_entries(journal)
        .expect("the journal can be read")
        .entries
        .len()
}

#[test]
fn a_pupil_begins_answers_leaves_and_finds_the_answers_kept() {
    let Some(terminal) = Terminal::run("pupil", &[]) else {
        return;
    };
    terminal.wait_for("Hear what each chord does");
    terminal.press(&["Enter"]);
    terminal.wait_for("1 of 12");
    terminal.press(&["1"]);
    terminal.wait_for("It was ");
    assert_eq!(
        answers(&terminal.journal()),
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
    let start = Instant::now();
    while !terminal.has_ended() {
        assert!(
            start.elapsed() < Duration::from_secs(20),
            "it ends when it is quit"
        );
        std::thread::sleep(Duration::from_millis(20));
    }
    assert_eq!(answers(&terminal.journal()), 1);
}

#[test]
fn a_drill_begins_at_once_and_takes_typed_numerals() {
    let arguments = ["drill", "mixed-colours", "--seed", "5", "--questions", "2"];
    let Some(terminal) = Terminal::run("typed", &arguments) else {
        return;
    };
    terminal.wait_for("1 of 2");
    terminal.press(&["i", "v", "z", "Enter"]);
    terminal.wait_for("cannot be read");
    terminal.press(&["C-c"]);
    let start = Instant::now();
    while !terminal.has_ended() {
        assert!(
            start.elapsed() < Duration::from_secs(20),
            "Ctrl-C quits at once"
        );
        std::thread::sleep(Duration::from_millis(20));
    }
}

//! A terminal: a tmux server of its own with one window of 80 by 24.

use std::path::PathBuf;
use std::process::Command;
use std::time::{Duration, Instant};

use crate::needs::missing;

/// How long anything may take that is waited for.
const PATIENCE: Duration = Duration::from_secs(20);

/// The server and a folder for the test's files, both taken away with the value.
pub(crate) struct Tmux {
    socket: String,
    pub(crate) folder: PathBuf,
}

impl Tmux {
    /// A server without a window; nothing where there is no tmux.
    pub(crate) fn open(name: &str) -> Option<Self> {
        if Command::new("tmux").arg("-V").output().is_err() {
            missing("tmux");
            return None;
        }
        let socket = format!("plagal-{name}-{}", std::process::id());
        let folder = std::env::temp_dir().join(&socket);
        std::fs::create_dir_all(&folder).expect("a folder for the test");
        Some(Self { socket, folder })
    }

    /// Runs a program in the window.
    pub(crate) fn run(&self, program: &[&str]) {
        let window = ["new-session", "-d", "-s", "s", "-x", "80", "-y", "24"];
        self.tell(&[&window[..], program].concat());
    }

    fn tell(&self, arguments: &[&str]) -> String {
        let output = Command::new("tmux")
            .env("LC_ALL", "C.UTF-8")
            .args(["-L", &self.socket, "-f", "/dev/null", "-u"])
            .args(arguments)
            .output()
            .expect("tmux runs");
        String::from_utf8_lossy(&output.stdout).into_owned()
    }

    pub(crate) fn press(&self, keys: &[&str]) {
        self.tell(&[&["send-keys", "-t", "s"], keys].concat());
    }

    fn screen(&self) -> String {
        self.tell(&["capture-pane", "-p", "-t", "s"])
    }

    /// Waits until something is so.
    pub(crate) fn until(&self, what: &str, mut is_so: impl FnMut(&Self) -> bool) {
        let start = Instant::now();
        while !is_so(self) {
            let screen = self.screen();
            assert!(start.elapsed() < PATIENCE, "not {what} in\n{screen}");
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// Waits for a text on the screen.
    pub(crate) fn wait_for(&self, text: &str) {
        self.until(text, |tmux| tmux.screen().contains(text));
    }

    /// Waits until the program in the window has ended.
    pub(crate) fn wait_for_end(&self) {
        self.until("over", |tmux| tmux.tell(&["list-sessions"]).is_empty());
    }
}

impl Drop for Tmux {
    fn drop(&mut self) {
        self.tell(&["kill-server"]);
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

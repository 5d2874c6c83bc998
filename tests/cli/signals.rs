//! Every signal that can be caught, in every state of a drill, in the full screen and line by
//! line: the terminal is as before, the exit code tells the signal, and what was answered is
//! kept although the journal's disk is full. Needs tmux.

use std::path::PathBuf;
use std::process::Command;
use std::time::{Duration, Instant};

use crate::needs::missing;

/// A shell in a tmux server of our own.
struct Shell {
    socket: String,
    folder: PathBuf,
}

impl Shell {
    /// Nothing where there is no tmux.
    fn open(name: &str) -> Option<Self> {
        if Command::new("tmux").arg("-V").output().is_err() {
            missing("tmux");
            return None;
        }
        let socket = format!("plagal-{name}-{}", std::process::id());
        let folder = std::env::temp_dir().join(&socket);
        std::fs::create_dir_all(&folder).expect("a folder for the answers");
        let shell = Self { socket, folder };
        shell.tmux(&["new-session", "-d", "-s", "s", "-x", "80", "-y", "24", "sh"]);
        Some(shell)
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

    fn until(&self, what: &str, mut is_so: impl FnMut() -> bool) {
        let start = Instant::now();
        while !is_so() {
            let screen = self.tmux(&["capture-pane", "-p", "-t", "s"]);
            let patience = Duration::from_secs(20);
            assert!(start.elapsed() < patience, "not {what} in\n{screen}");
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    fn wait_for(&self, text: &str) {
        self.until(text, || {
            self.tmux(&["capture-pane", "-p", "-t", "s"]).contains(text)
        });
    }

    /// Runs the program between two looks at the terminal's modes.
    fn run(&self, arguments: &str) {
        let script = format!(
            "cd {folder}; stty -a > before; HOME={folder} TMPDIR={folder} {program} drill \
             first-cadences --seed 3 --journal /dev/full --audio off {arguments}; echo $? > code; \
             stty -a > after\n",
            folder = self.folder.display(),
            program = env!("CARGO_BIN_EXE_plagal"),
        );
        std::fs::write(self.folder.join("run.sh"), script).expect("it can be written");
        let line = format!(". {}/run.sh", self.folder.display());
        self.press(&[&line, "Enter"]);
    }

    fn read(&self, file: &str) -> Option<String> {
        let text = std::fs::read_to_string(self.folder.join(file)).ok()?;
        text.ends_with('\n').then_some(text)
    }

    /// Sends the program a signal.
    fn signal(&self, name: &str) {
        let folder = self.folder.display().to_string();
        for entry in std::fs::read_dir("/proc").expect("Linux has it").flatten() {
            let is_ours = std::fs::read_to_string(entry.path().join("cmdline"))
                .is_ok_and(|line| line.starts_with(env!("CARGO_BIN_EXE_plagal")));
            let environ = std::fs::read(entry.path().join("environ")).unwrap_or_default();
            let is_here = String::from_utf8_lossy(&environ).contains(&format!("TMPDIR={folder}\0"));
            if is_ours && is_here {
                let process = entry.file_name();
                let mut kill = Command::new("kill");
                kill.arg(format!("-{name}")).arg(process);
                assert!(kill.status().expect("kill runs").success());
            }
        }
    }

    /// How many answers are in rescue files.
    fn rescued(&self) -> usize {
        let entries = std::fs::read_dir(&self.folder).expect("it is there");
        let files = entries.flatten().filter(|entry| {
            let ending = entry.path().extension().map(std::ffi::OsStr::to_owned);
            ending.is_some_and(|ending| ending == "jsonl")
        });
        let lines = files.map(|file| std::fs::read_to_string(file.path()).unwrap_or_default());
        lines.map(|text| text.lines().count()).sum()
    }
}

impl Drop for Shell {
    fn drop(&mut self) {
        self.tmux(&["kill-server"]);
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

const SIGNALS: [(&str, u8); 4] = [("INT", 2), ("TERM", 15), ("HUP", 1), ("QUIT", 3)];

/// What is pressed before the signal, what must then be on the screen, and how many answers
/// were marked.
type State<'a> = (&'a [(&'a str, &'a str)], usize);

fn all(name: &str, arguments: &str, states: &[State<'_>]) {
    for (number, (presses, answers)) in states.iter().enumerate() {
        for (signal, code) in SIGNALS {
            let Some(shell) = Shell::open(&format!("{name}-{number}-{signal}")) else {
                return;
            };
            shell.run(arguments);
            for (press, shows) in *presses {
                shell.press(
                    &press
                        .split(' ')
                        .filter(|key| !key.is_empty())
                        .collect::<Vec<_>>(),
                );
                shell.wait_for(shows);
            }
            shell.signal(signal);
            shell.until("over", || shell.read("after").is_some());
            let about = format!("{name}, state {number}, {signal}");
            assert_eq!(shell.read("after"), shell.read("before"), "{about}");
            let told = shell.read("code").expect("a code");
            // What had to be rescued is told before the signal.
            let expected = if *answers > 0 { 73 } else { 128 + code };
            assert_eq!(told.trim(), expected.to_string(), "{about}");
            assert_eq!(shell.rescued(), *answers, "{about}");
        }
    }
}

#[test]
fn the_full_screen_gives_the_terminal_back_and_keeps_every_answer() {
    all(
        "screen",
        "",
        &[
            (&[("", "1 of 12")], 0),
            (&[("", "1 of 12"), ("?", "Help")], 0),
            (&[("", "1 of 12"), ("1", "It was ")], 1),
            (
                &[("", "1 of 12"), ("1", "It was "), ("Enter", "2 of 12")],
                1,
            ),
            (
                &[
                    ("", "1 of 12"),
                    ("1", "It was "),
                    ("Enter", "2 of 12"),
                    ("1", "It was "),
                    ("Escape", "The drill is over"),
                ],
                2,
            ),
        ],
    );
}

#[test]
fn the_plain_drill_keeps_every_answer() {
    all(
        "plain",
        "--plain",
        &[
            (&[("", "bar ")], 0),
            (&[("", "bar "), ("1 Enter", "Enter goes on")], 1),
        ],
    );
}

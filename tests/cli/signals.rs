//! Every signal that can be caught, in every state of a drill, in the full screen and line by
//! line: the terminal is as before, the exit code tells the signal, and what was answered is
//! kept although the journal's disk is full. Needs tmux.

use std::process::Command;

use crate::tmux::Tmux;

/// A shell in a terminal.
struct Shell(Tmux);

impl Shell {
    /// Nothing where there is no tmux.
    fn open(name: &str) -> Option<Self> {
        let terminal = Tmux::open(name)?;
        terminal.run(&["sh"]);
        Some(Self(terminal))
    }

    /// Runs the program between two looks at the terminal's modes.
    fn run(&self, arguments: &str) {
        let script = format!(
            "cd {folder}; stty -a > before; HOME={folder} TMPDIR={folder} {program} drill \
             first-cadences --seed 3 --journal /dev/full --audio off {arguments}; echo $? > code; \
             stty -a > after\n",
            folder = self.0.folder.display(),
            program = env!("CARGO_BIN_EXE_plagal"),
        );
        std::fs::write(self.0.folder.join("run.sh"), script).expect("it can be written");
        let line = format!(". {}/run.sh", self.0.folder.display());
        self.0.press(&[&line, "Enter"]);
    }

    fn read(&self, file: &str) -> Option<String> {
        let text = std::fs::read_to_string(self.0.folder.join(file)).ok()?;
        text.ends_with('\n').then_some(text)
    }

    /// Sends the program a signal.
    fn signal(&self, name: &str) {
        let folder = self.0.folder.display().to_string();
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
        let entries = std::fs::read_dir(&self.0.folder).expect("it is there");
        let files = entries.flatten().filter(|entry| {
            let ending = entry.path().extension().map(std::ffi::OsStr::to_owned);
            ending.is_some_and(|ending| ending == "jsonl")
        });
        let lines = files.map(|file| std::fs::read_to_string(file.path()).unwrap_or_default());
        lines.map(|text| text.lines().count()).sum()
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
                shell.0.press(
                    &press
                        .split(' ')
                        .filter(|key| !key.is_empty())
                        .collect::<Vec<_>>(),
                );
                shell.0.wait_for(shows);
            }
            shell.signal(signal);
            shell.0.until("over", |_| shell.read("after").is_some());
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

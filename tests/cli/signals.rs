//! Every signal that can be caught, in every state of a drill, in the full screen and line by
//! line: the terminal is as before, the exit code tells the signal, and what was answered is
//! kept although the journal's disk is full. Needs tmux. `PLAGAL_SIGNALS=all` tries each
//! signal in each state.

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

    /// Runs the program between two looks at the terminal's modes. The shell goes on whatever
    /// the program dies of, and does not notice that it is stopped.
    fn run(&self, arguments: &str) {
        let script = format!(
            "trap : INT; set +m; cd {folder}; ulimit -c 0; stty -a > before; HOME={folder} TMPDIR={folder} {program} drill \
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

/// Every kind of end: asked for, by a clock or a limit, of Linux's own, of real time, and a
/// fault.
const SIGNALS: [(&str, u8); 16] = [
    ("HUP", 1),
    ("INT", 2),
    ("QUIT", 3),
    ("ABRT", 6),
    ("BUS", 7),
    ("USR1", 10),
    ("SEGV", 11),
    ("USR2", 12),
    ("ALRM", 14),
    ("TERM", 15),
    ("XCPU", 24),
    ("VTALRM", 26),
    ("PROF", 27),
    ("IO", 29),
    ("PWR", 30),
    ("RTMIN", 34),
];

/// What is pressed before the signal, what must then be on the screen, and how many answers
/// were marked.
type State<'a> = (&'a [(&'a str, &'a str)], usize);

/// Tries each signal in one of the states, or in all of them with `PLAGAL_SIGNALS=all`.
fn all(name: &str, arguments: &str, states: &[State<'_>]) {
    let in_all = std::env::var_os("PLAGAL_SIGNALS").is_some_and(|which| which == "all");
    for (at, (signal, code)) in SIGNALS.into_iter().enumerate() {
        for (number, state) in states.iter().enumerate() {
            if in_all || at % states.len() == number {
                let about = format!("{name}-{number}-{signal}");
                if !one(&about, arguments, state, signal, code) {
                    return;
                }
            }
        }
    }
}

/// Whether there is a terminal to try it in.
fn one(about: &str, arguments: &str, state: &State<'_>, signal: &str, code: u8) -> bool {
    let Some(shell) = Shell::open(about) else {
        return false;
    };
    shell.run(arguments);
    let (presses, answers) = state;
    for (press, shows) in *presses {
        let keys = press.split(' ').filter(|key| !key.is_empty());
        shell.0.press(&keys.collect::<Vec<_>>());
        shell.0.wait_for(shows);
    }
    shell.signal(signal);
    shell.0.until("over", |_| shell.read("after").is_some());
    assert_eq!(shell.read("after"), shell.read("before"), "{about}");
    let told = shell.read("code").expect("a code");
    assert_eq!(told.trim(), (128 + code).to_string(), "{about}");
    assert_eq!(shell.rescued(), *answers, "{about}");
    if arguments.is_empty() {
        // The other screen is gone, and what was on the shell's own is there.
        shell.0.wait_for("run.sh");
    }
    true
}

#[test]
fn the_full_screen_gives_the_terminal_back_and_keeps_every_answer() {
    let asked = ("", "1 of 12");
    let marked = ("1", "It was ");
    let again = ("Enter", "2 of 12");
    all(
        "screen",
        "",
        &[
            (&[asked], 0),
            (&[asked, ("?", "Help")], 0),
            (&[asked, marked], 1),
            (&[asked, marked, again], 1),
            (
                &[
                    asked,
                    marked,
                    again,
                    marked,
                    ("Escape", "The drill is over"),
                ],
                2,
            ),
        ],
    );
}

#[test]
fn the_plain_drill_keeps_every_answer() {
    let asked = ("", "bar ");
    let marked = ("1 Enter", "Enter goes on");
    all(
        "plain",
        "--plain",
        &[
            (&[asked], 0),
            (&[asked, ("b a s s Enter", "bass")], 0),
            (&[asked, marked], 1),
            (&[asked, marked, ("m i n e Enter", "mine")], 1),
            (&[asked, marked, ("Enter 1 Enter", "2 answers are not")], 2),
        ],
    );
}

#[test]
fn two_signals_at_once_give_the_terminal_back() {
    let Some(shell) = Shell::open("twice") else {
        return;
    };
    shell.run("");
    shell.0.wait_for("1 of 12");
    // While it is stopped both wait, as signals of real time do; then they come at once.
    for signal in ["STOP", "RTMIN", "RTMIN", "CONT"] {
        shell.signal(signal);
    }
    shell.0.until("over", |_| shell.read("after").is_some());
    assert_eq!(shell.read("after"), shell.read("before"));
    assert_eq!(shell.read("code").as_deref(), Some("162\n"));
}

/// Who waits for the program is told which signal ended it, as if it had died of it at once;
/// and what ends nobody who handles failing writes does not end it.
#[test]
fn the_plain_drill_dies_of_the_signal_itself() {
    use std::io::{BufRead, BufReader, Write};
    use std::os::unix::process::ExitStatusExt;

    let folder = crate::run::scratch();
    for (signal, number) in SIGNALS {
        let mut drill = crate::run::command(&["drill", "first-cadences", "--json", "--seed", "3"])
            .env("PLAGAL_JOURNAL", folder.join("journal.jsonl"))
            .stdin(std::process::Stdio::piped())
            .stdout(std::process::Stdio::piped())
            .stderr(std::process::Stdio::null())
            .spawn()
            .expect("the program starts");
        let mut answers = drill.stdin.take().expect("it is piped");
        let out = drill.stdout.take().expect("it is piped");
        let mut lines = BufReader::new(out).lines().map_while(Result::ok);
        let kill = |signal: &str| {
            let mut kill = Command::new("kill");
            kill.arg(format!("-{signal}")).arg(drill.id().to_string());
            assert!(kill.status().expect("kill runs").success());
        };
        lines
            .find(|line| line.contains("\"event\":\"question\""))
            .expect("it asks");
        kill("PIPE");
        kill("XFSZ");
        writeln!(answers, "1").expect("it still reads");
        lines
            .find(|line| line.contains("\"event\":\"mark\""))
            .expect("it marks");
        kill(signal);
        let status = drill.wait().expect("it ends");
        assert_eq!(
            status.signal(),
            Some(i32::from(number)),
            "{signal}: {status}"
        );
    }
    std::fs::remove_dir_all(folder).expect("it was made above");
}

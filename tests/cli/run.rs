//! Runs the program in an empty environment.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};

/// How a run ended and what it wrote.
pub(crate) struct Run {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Run {
    /// The single line of JSON on standard error.
    pub(crate) fn error_json(&self) -> serde_json::Value {
        serde_json::from_str(&self.err).expect("standard error holds one JSON value")
    }

    /// The single line of JSON on standard output.
    pub(crate) fn json(&self) -> serde_json::Value {
        assert_eq!(self.code, 0, "{}", self.err);
        serde_json::from_str(&self.out).expect("standard output holds one JSON value")
    }
}

/// A command that sees none of the user's files or variables.
pub(crate) fn command(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_plagal"));
    command
        .args(arguments)
        .env_clear()
        .env("PLAGAL_HOME", "/no/such/home")
        .env("PLAGAL_JOURNAL", "/no/such/journal")
        .env("PLAGAL_AUDIO", "off")
        .env("TMPDIR", scratch())
        .stdin(Stdio::null());
    command
}

/// A new folder for what a run leaves behind, in the folder of the build.
pub(crate) fn scratch() -> PathBuf {
    static RUNS: AtomicU32 = AtomicU32::new(0);
    let run = RUNS.fetch_add(1, Ordering::Relaxed);
    let name = format!("run-{}-{run}", std::process::id());
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::create_dir_all(&folder).expect("the folder of the build takes folders");
    folder
}

/// Runs the program with `arguments`.
pub(crate) fn plagal(arguments: &[&str]) -> Run {
    run(&mut command(arguments))
}

/// Runs a shaped command.
pub(crate) fn run(command: &mut Command) -> Run {
    let output = command.output().expect("the program runs");
    Run {
        code: output.status.code().expect("it was not killed"),
        out: String::from_utf8(output.stdout).expect("standard output is text"),
        err: String::from_utf8(output.stderr).expect("standard error is text"),
    }
}

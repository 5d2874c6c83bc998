//! The command line as a process: exit codes, streams, help, completions, manual.

use crate::run::plagal;

#[test]
fn misuse_is_told_on_standard_error_with_code_2() {
    let run = plagal(&["--loud"]);
    assert_eq!(run.code, 2);
    assert_eq!(run.out, "");
    assert!(run.err.contains("--loud"), "{}", run.err);
}

#[test]
fn misuse_is_told_in_json_too() {
    let run = plagal(&["--json", "sing"]);
    assert_eq!(run.code, 2);
    let error = run.error_json();
    let what = error["error"]["what"].as_str().expect("it says what");
    assert!(what.contains("sing"), "{what}");
    assert!(error["error"]["where"].is_null());
}

#[test]
fn what_the_user_types_never_reaches_the_terminal_raw() {
    let run = plagal(&["\u{1b}[31mred"]);
    assert_eq!(run.code, 2);
    assert!(!run.err.contains('\u{1b}'), "{:?}", run.err);
}

#[test]
fn help_and_version_are_data() {
    for option in ["--help", "--version"] {
        let run = plagal(&[option]);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{option}");
        assert!(run.out.contains("plagal"), "{}", run.out);
        assert!(!run.out.contains('\u{1b}'), "no colour in a pipe");
    }
    let colored = plagal(&["--help", "--color", "always"]);
    assert!(colored.out.contains('\u{1b}'), "colour on demand");
}

#[test]
fn every_shell_gets_completions_with_every_option() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let run = plagal(&["completions", shell]);
        assert_eq!(run.code, 0, "{shell}");
        for option in ["json", "ascii", "color", "journal", "audio", "home"] {
            assert!(run.out.contains(option), "{shell} lacks {option}");
        }
    }
}

#[test]
fn the_manual_describes_every_command_and_exit_code() {
    let run = plagal(&["manual"]);
    assert_eq!(run.code, 0);
    let help = plagal(&["--help"]).out;
    let commands = help
        .lines()
        .skip_while(|line| !line.starts_with("Commands:"))
        .skip(1)
        .take_while(|line| !line.trim().is_empty())
        .filter(|line| line.starts_with("  ") && !line.starts_with("   "))
        .filter_map(|line| line.split_whitespace().next())
        .filter(|name| *name != "help");
    let mut count = 0;
    for name in commands {
        assert!(run.out.contains(&format!("plagal {name}")), "{name}");
        count += 1;
    }
    assert!(count >= 2, "the help lists the commands");
    for code in ["65", "66", "69", "73", "130"] {
        assert!(run.out.contains(&format!("\\fB{code}\\fR")), "{code}");
    }
    assert!(run.out.contains("CAUTION"));
}

#[cfg(unix)]
#[test]
fn a_closed_pipe_ends_quietly() {
    use std::io::Read;
    use std::process::{Command, Stdio};

    let (reader, writer) = std::io::pipe().expect("a pipe can be made");
    drop(reader);
    let mut child = Command::new(env!("CARGO_BIN_EXE_plagal"))
        .args(["completions", "bash"])
        .stdout(writer)
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let status = child.wait().expect("the program ends");
    let mut err = String::new();
    let mut stream = child.stderr.take().expect("it is piped");
    stream.read_to_string(&mut err).expect("it is text");
    assert_eq!((status.code(), err.as_str()), (Some(0), ""));
}

#[cfg(target_os = "linux")]
#[test]
fn output_that_cannot_be_written_has_code_73() {
    let full = std::fs::OpenOptions::new()
        .write(true)
        .open("/dev/full")
        .expect("Linux has a full device");
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_plagal"))
        .args(["manual", "--json"])
        .stdout(full)
        .output()
        .expect("the program runs");
    assert_eq!(output.status.code(), Some(73));
    let err = String::from_utf8(output.stderr).expect("it is text");
    assert!(err.starts_with("{\"error\":{"), "{err}");
}

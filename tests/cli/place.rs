//! Where the program is run with a library before the C library, which lets its calls fail,
//! kills it at them, and records them (`tests/faults/shim.c`).

use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;

use crate::needs::missing;

/// What goes wrong.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fault {
    /// At which call, from 1; at none with 0.
    pub(crate) number: usize,
    /// What the shim knows it by.
    pub(crate) how: &'static str,
    /// Whether all calls count, or only those that touch the journal's folder.
    pub(crate) everywhere: bool,
}

/// A folder with a disk in it, on which the program has its home, its journal and its
/// temporary folder, and the shim. It goes with the value.
pub(crate) struct Place(PathBuf);

impl Drop for Place {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

impl Place {
    /// Nothing where there is no C compiler.
    pub(crate) fn new(name: &str) -> Option<Self> {
        let name = format!("plagal-{name}-{}", std::process::id());
        let place = Self(std::env::temp_dir().join(name));
        fs::create_dir_all(&place.0).expect("a folder for the test");
        let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/faults/shim.c");
        let compiled = Command::new("cc")
            .args(["-shared", "-fPIC", "-O1", "-w", "-o"])
            .args([&place.0.join("shim.so"), &source])
            .arg("-ldl")
            .status();
        if compiled.is_ok_and(|status| status.success()) {
            return Some(place);
        }
        missing("a C compiler");
        None
    }

    pub(crate) fn at(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    /// The program in its shim, with files that nobody's mask protects.
    pub(crate) fn run(&self, arguments: &[&str], input: &str, fault: &Fault) -> Output {
        let below = if fault.everywhere {
            self.at("disk")
        } else {
            self.at("disk/data")
        };
        let mut run = Command::new("sh")
            .args([
                "-c",
                "umask 0; exec \"$0\" \"$@\"",
                env!("CARGO_BIN_EXE_plagal"),
            ])
            .args(arguments)
            .env_clear()
            .env("PATH", "/usr/bin:/bin")
            .env("PLAGAL_AUDIO", "off")
            .env("PLAGAL_HOME", self.at("disk/home"))
            .env("TMPDIR", self.at("disk/tmp"))
            .env("PLAGAL_JOURNAL", self.at("disk/data/journal.jsonl"))
            .env("LD_PRELOAD", self.at("shim.so"))
            .env("FAULT_BELOW", below)
            .env("FAULT_AT", fault.number.to_string())
            .env("FAULT_HOW", fault.how)
            .env("FAULT_REACHED", self.at("reached"))
            .env("FAULT_DISK", self.at("disk"))
            .env("FAULT_LOG", self.at("log"))
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program runs");
        let pipe = run.stdin.take().expect("standard input is piped");
        let _ = (&pipe).write_all(input.as_bytes());
        drop(pipe);
        run.wait_with_output().expect("it ends")
    }

    /// Sets the place up, with a journal if there is one.
    pub(crate) fn fresh(&self, journal: Option<&str>) {
        let _ = fs::remove_dir_all(self.at("disk"));
        for file in ["reached", "log"] {
            let _ = fs::remove_file(self.at(file));
        }
        for folder in ["disk/home", "disk/tmp"] {
            fs::create_dir_all(self.at(folder)).expect("room");
        }
        if let Some(text) = journal {
            fs::create_dir_all(self.at("disk/data")).expect("room");
            let path = self.at("disk/data/journal.jsonl");
            fs::write(&path, text).expect("room");
            fs::set_permissions(path, fs::Permissions::from_mode(0o600)).expect("own file");
        }
    }

    pub(crate) fn reached(&self) -> bool {
        self.at("reached").exists()
    }

    /// All answers in journal and rescue files, by learner and index.
    pub(crate) fn kept(&self) -> BTreeSet<(String, u64)> {
        let mut kept = BTreeSet::new();
        for folder in ["disk/data", "disk/home", "disk/tmp"] {
            for file in fs::read_dir(self.at(folder))
                .into_iter()
                .flatten()
                .flatten()
            {
                let path = file.path();
                let mode = file.metadata().expect("it is there").permissions().mode();
                assert_eq!(mode & 0o077, 0, "{} can be read by others", path.display());
                if path
                    .extension()
                    .is_some_and(|extension| extension == "jsonl")
                {
                    let bytes = fs::read(&path).expect("it can be read");
                    kept.extend(answers(&String::from_utf8_lossy(&bytes)));
                }
            }
        }
        kept
    }
}

/// The answers in a text, by learner and index.
pub(crate) fn answers(text: &str) -> BTreeSet<(String, u64)> {
    let values = text
        .lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).ok());
    values
        .filter_map(|answer| {
            answer.get("slots")?;
            Some((
                answer["learner"].as_str()?.to_owned(),
                answer["index"].as_u64()?,
            ))
        })
        .collect()
}

/// A line of a journal.
pub(crate) fn line(learner: &str, index: u64) -> String {
    let line = r#"{"version":1,"id":"a-0","time":1760000000123,"learner":"ada","session":"a","exercise":"x","seed":7,"index":0,"kind":"name-chords","key":"G","line":"IV iv I","tempo":96.0,"sound":"piano","texture":"held","key_setting":"tonic","answers":9,"difficulty":{"inversion":0.0,"texture":0.0,"tempo":0.5,"similarity":0.5},"thinking":900,"replays":0,"slots":[{"slot":1,"devices":["minor-four"],"truth":"iv","function":"","quality":"","degree":"4","bass":"4","answer":"iv","mark":"right","credit":1.0,"heard_as":null}]}"#;
    line.replace("ada", learner)
        .replace(r#""index":0"#, &format!(r#""index":{index}"#))
        + "\n"
}

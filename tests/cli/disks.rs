//! A full disk and a read-only one: the drill goes on, says so, and pretends nothing.
//! The disks are small file systems in memory, in a name space of their own; where the
//! system does not allow that, the tests say so and stop.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use crate::needs::missing;

/// How the script mounts: only its own children see it.
const ALONE: [&str; 4] = ["--user", "--map-root-user", "--mount", "--"];

fn can_mount(folder: &Path) -> bool {
    let mounted = Command::new("unshare")
        .args(ALONE)
        .args(["mount", "-t", "tmpfs", "tmpfs"])
        .arg(folder)
        .output();
    let can = mounted.is_ok_and(|output| output.status.success());
    if !can {
        missing("file systems of one's own (unshare, user name spaces)");
    }
    can
}

struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("plagal-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        for inside in ["disk", "kept", "home"] {
            fs::create_dir_all(folder.join(inside)).expect("a folder for the test");
        }
        Self(folder)
    }

    /// Runs a script in which `$PLAGAL` is the program, `$DISK` a folder to mount on, and
    /// `$KEPT` one that outlives the script.
    fn run(&self, script: &str) -> Output {
        Command::new("unshare")
            .args(ALONE)
            .args(["sh", "-euc", script])
            .env("PLAGAL", env!("CARGO_BIN_EXE_plagal"))
            .env("DISK", self.0.join("disk"))
            .env("KEPT", self.0.join("kept"))
            .env("PLAGAL_HOME", self.0.join("home"))
            .env("PLAGAL_JOURNAL", self.0.join("disk/journal.jsonl"))
            .env("PLAGAL_AUDIO", "off")
            .output()
            .expect("the script runs")
    }

    fn text(&self, file: &str) -> String {
        fs::read_to_string(self.0.join("kept").join(file)).expect("it was kept")
    }

    /// Runs a script and says with which code its drill ended; on standard error the drill
    /// must have told what is wrong with the disk.
    fn drill(&self, script: &str, wrong: &str) -> String {
        let output = self.run(script);
        assert!(output.status.success(), "{output:?}");
        let told = self.text("err");
        assert!(told.contains(wrong), "{told}");
        self.text("code").trim_end().to_owned()
    }

    fn lines(&self, file: &str) -> usize {
        let text = self.text(file);
        assert!(text.is_empty() || text.ends_with('\n'), "{file} is torn");
        for line in text.lines() {
            serde_json::from_str::<serde_json::Value>(line).expect("every line is whole");
        }
        text.lines().count()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

const DRILL: &str = r#"
    set +e
    yes 1 | "$PLAGAL" drill first-cadences --plain --json --seed 5 --questions 60 >"$KEPT/out" 2>"$KEPT/err"
    echo $? >"$KEPT/code"
    set -e
"#;

fn marks(folder: &Folder) -> usize {
    let out = folder.text("out");
    assert!(
        out.contains("\"event\":\"end\""),
        "the drill went on to its end"
    );
    out.matches("\"event\":\"mark\"").count()
}

/// Answers in the journal and in the file beside, after the disk refused some.
fn kept(folder: &Folder) -> (usize, usize) {
    (folder.lines("journal.jsonl"), folder.lines("rescued.jsonl"))
}

#[test]
fn a_full_disk_costs_no_answer() {
    let folder = Folder::new("full-disk");
    if !can_mount(&folder.0.join("disk")) {
        return;
    }
    let script = format!(
        r#"mount -t tmpfs -o size=16k tmpfs "$DISK"
        {DRILL}
        cp "$DISK/journal.jsonl" "$KEPT/"
        cp "$PLAGAL_HOME"/plagal-unsaved-*.jsonl "$KEPT/rescued.jsonl""#
    );
    assert_eq!(folder.drill(&script, "the disk is full"), "73");
    let (in_journal, rescued) = kept(&folder);
    assert!(in_journal > 0 && rescued > 0);
    assert_eq!(in_journal + rescued, marks(&folder));
}

#[test]
fn room_made_in_mid_drill_takes_all_that_waited() {
    let folder = Folder::new("room-again");
    if !can_mount(&folder.0.join("disk")) {
        return;
    }
    // The ballast leaves room for a few answers and goes while the drill is under way.
    let script = format!(
        r#"mount -t tmpfs -o size=128k tmpfs "$DISK"
        dd if=/dev/zero of="$DISK/ballast" bs=1k count=120 2>/dev/null
        mkfifo "$KEPT/answers"
        yes 1 | head -12 >"$KEPT/first"
        ( cat "$KEPT/first"; until grep -q full "$KEPT/err" 2>/dev/null; do echo 1; sleep 0.02; done
          rm "$DISK/ballast"; yes 1 2>/dev/null ) >"$KEPT/answers" &
        {drill}
        cp "$DISK/journal.jsonl" "$KEPT/""#,
        drill = DRILL
            .replace("yes 1 | \"$PLAGAL\"", "\"$PLAGAL\"")
            .replace("--questions 60", "--questions 60 <\"$KEPT/answers\"")
    );
    assert_eq!(folder.drill(&script, "the disk is full"), "0");
    assert_eq!(folder.lines("journal.jsonl"), marks(&folder));
}

#[test]
fn a_read_only_disk_costs_no_answer() {
    let folder = Folder::new("read-only");
    if !can_mount(&folder.0.join("disk")) {
        return;
    }
    let script = format!(
        r#"mount -t tmpfs -o size=256k tmpfs "$DISK"
        yes 1 | "$PLAGAL" drill first-cadences --plain --seed 4 --questions 3 >/dev/null 2>&1
        mount -o remount,ro "$DISK"
        {DRILL}
        cp "$DISK/journal.jsonl" "$KEPT/"
        cp "$PLAGAL_HOME"/plagal-unsaved-*.jsonl "$KEPT/rescued.jsonl""#
    );
    assert_eq!(folder.drill(&script, "the disk is read-only"), "73");
    let (in_journal, rescued) = kept(&folder);
    assert_eq!((in_journal, rescued), (3, marks(&folder)));
}

//! A drill that is killed in the middle loses no answer that was marked on screen.
//! `PLAGAL_KILLS` says how often it is killed; the figure in the notes comes from 200.

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use plagal::host::journal_file::read_entries;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Answers as fast as it can, kills the drill after some marks and a little longer, and
/// gives the number of marks that were seen.
fn answer_and_kill(journal: &Path, home: &Path, random: &mut ChaCha8Rng, seed: u64) -> usize {
    let mut drill = Command::new(env!("CARGO_BIN_EXE_plagal"))
        .args([
            "drill",
            "first-cadences",
            "--plain",
            "--json",
            "--audio",
            "off",
        ])
        .args(["--questions", "500", "--seed", &seed.to_string()])
        .arg("--journal")
        .arg(journal)
        .arg("--home")
        .arg(home)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program starts");
    let mut answers = drill.stdin.take().expect("it has an input");
    let lines = BufReader::new(drill.stdout.take().expect("it has an output")).lines();
    let wanted = random.random_range(1..12);
    let mut marks = 0;
    let mut seen = lines.map_while(Result::ok);
    while marks < wanted {
        let line = seen.next().expect("the drill goes on until it is killed");
        marks += usize::from(line.contains("\"event\":\"mark\""));
        if line.contains("\"event\":\"question\"") {
            writeln!(answers, "1").expect("it reads answers");
        }
    }
    std::thread::sleep(Duration::from_micros(random.random_range(0..1500)));
    drill.kill().expect("it can be killed");
    drill.wait().expect("it ends");
    marks
        + seen
            .filter(|line| line.contains("\"event\":\"mark\""))
            .count()
}

#[test]
fn a_killed_drill_loses_no_marked_answer() {
    let kills = std::env::var("PLAGAL_KILLS")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(8);
    let folder = std::env::temp_dir().join(format!("plagal-killed-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder for the journal");
    let journal = folder.join("journal.jsonl");
    let mut random = ChaCha8Rng::seed_from_u64(11);
    let mut marked = 0;
    for seed in 0..kills {
        marked += answer_and_kill(&journal, &folder, &mut random, seed);
        let read = read_entries(&journal).expect("the journal can be read");
        assert!(
            read.faults.len() <= 1,
            "only the last line may be torn: {:?}",
            read.faults
        );
        assert!(
            read.entries.len() >= marked,
            "{} kept of {marked}",
            read.entries.len()
        );
    }
    println!("{kills} kills, {marked} marked answers, none lost");
    std::fs::remove_dir_all(&folder).expect("the folder can be removed");
}

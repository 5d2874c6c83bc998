//! The journal on disk: what was answered is there, whatever happens around it.

use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::PathBuf;
use std::thread;

use plagal::host::journal_file::{
    JournalFile, MergeError, Merged, forget, left_behind, merge, read_entries,
};
use plagal::journal::{Entry, JournalLine, parse, print};

const LINE: &str = r#"{"version":1,"id":"a-0","time":1760000000123,"learner":"ada","session":"a","exercise":"borrowed-colours","seed":7,"index":0,"kind":"name-the-chord","key":"G","line":"IV iv I","tempo":96.0,"sound":"upright","texture":"held","key_setting":"tonic","answers":9,"difficulty":{"inversion":0.0,"texture":0.0,"tempo":0.5,"similarity":0.5},"thinking":900,"replays":0,"slots":[{"slot":1,"devices":["minor-four"],"truth":"iv","function":"borrowed subdominant","quality":"minor","degree":"4","bass":"4","answer":"iv","mark":"right","credit":1.0,"heard_as":null}]}"#;

fn entry(id: &str) -> Entry {
    match parse::<Entry>(LINE) {
        Ok(JournalLine::Known(entry)) => Entry {
            id: id.to_owned(),
            ..entry
        },
        other => panic!("expected an entry, found {other:?}"),
    }
}

/// A folder of its own for one test, gone afterwards.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("plagal-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).expect("a folder for the test");
        Self(folder)
    }

    fn journal(&self) -> PathBuf {
        self.0.join("journal.jsonl")
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn ids(path: &std::path::Path) -> Vec<String> {
    let read = read_entries(path).expect("the journal is readable");
    assert_eq!(read.faults, [], "every line is an entry");
    read.entries.into_iter().map(|entry| entry.id).collect()
}

#[test]
fn a_missing_journal_is_an_empty_one_and_is_made_at_the_first_answer() {
    let folder = Folder::new("missing");
    let path = folder.0.join("deep/down/journal.jsonl");
    assert_eq!(ids(&path), [] as [String; 0]);
    let (mut journal, mended) = JournalFile::open(&path, "s", &[]);
    assert!(mended.is_ok() && !path.exists());
    journal.append(&entry("a-0")).expect("room for a line");
    assert_eq!(ids(&path), ["a-0"]);
}

#[test]
fn a_line_torn_at_any_byte_loses_only_itself() {
    let folder = Folder::new("torn");
    let path = folder.journal();
    let aside = folder.0.join("journal.jsonl.torn");
    let (first, second) = (print(&entry("a-0")), print(&entry("a-1")));
    for cut in 0..second.len() {
        let _ = fs::remove_file(&aside);
        fs::write(&path, format!("{first}{}", &second[..cut])).expect("room");
        let (mut journal, mended) = JournalFile::open(&path, "s", &[]);
        let set_aside = mended.expect("the tail can be mended").set_aside;
        journal.append(&entry("a-2")).expect("room for a line");
        if cut == second.len() - 1 {
            // Only the line feed is missing, so the answer is not lost.
            assert_eq!(ids(&path), ["a-0", "a-1", "a-2"]);
        } else {
            assert_eq!(ids(&path), ["a-0", "a-2"]);
            assert_eq!(set_aside, cut as u64);
        }
        if set_aside > 0 {
            let kept = fs::read_to_string(&aside).expect("torn bytes are kept");
            assert_eq!(kept, format!("{}\n", &second[..cut]));
        }
    }
}

#[test]
fn a_torn_tail_longer_than_a_block_is_found() {
    let folder = Folder::new("long");
    let path = folder.journal();
    let torn = "x".repeat(200_000);
    fs::write(&path, format!("{}{torn}", print(&entry("a-0")))).expect("room");
    let (_, mended) = JournalFile::open(&path, "s", &[]);
    assert_eq!(mended.expect("mended").set_aside, 200_000);
    assert_eq!(ids(&path), ["a-0"]);
}

#[test]
fn newer_and_damaged_lines_stay_where_they_are() {
    let folder = Folder::new("newer");
    let path = folder.journal();
    let before = format!(
        "{}{{\"version\":9,\"x\":1}}\n\nnonsense\n{}",
        print(&entry("a-0")),
        print(&entry("a-1"))
    );
    fs::write(&path, &before).expect("room");
    let (mut journal, _) = JournalFile::open(&path, "s", &[]);
    journal.append(&entry("a-2")).expect("room for a line");
    let after = fs::read_to_string(&path).expect("readable");
    assert_eq!(after, format!("{before}{}", print(&entry("a-2"))));
    let read = read_entries(&path).expect("readable");
    assert_eq!((read.entries.len(), read.newer), (3, 1));
    assert_eq!(read.faults.len(), 1);
    assert_eq!(read.faults[0].0, 4, "the fault names its line");
}

#[test]
fn bytes_that_are_no_text_are_a_fault_of_their_line_alone() {
    let folder = Folder::new("bytes");
    let path = folder.journal();
    let mut bytes = print(&entry("a-0")).into_bytes();
    bytes.extend_from_slice(b"\xff\xfe\n");
    bytes.extend_from_slice(print(&entry("a-1")).as_bytes());
    fs::write(&path, bytes).expect("room");
    let read = read_entries(&path).expect("readable");
    assert_eq!((read.entries.len(), read.faults.len()), (2, 1));
}

#[test]
fn two_writers_lose_nothing() {
    let answers: usize = std::env::var("PLAGAL_ANSWERS")
        .ok()
        .and_then(|number| number.parse().ok())
        .unwrap_or(400);
    let folder = Folder::new("two");
    let path = folder.journal();
    thread::scope(|scope| {
        for writer in 0..2 {
            let path = &path;
            scope.spawn(move || {
                let (mut journal, _) = JournalFile::open(path, "s", &[]);
                for index in 0..answers / 2 {
                    journal
                        .append(&entry(&format!("{writer}-{index}")))
                        .expect("room for a line");
                }
            });
        }
    });
    let found = ids(&path);
    for writer in 0..2 {
        let own: Vec<&String> = found
            .iter()
            .filter(|id| id.starts_with(&format!("{writer}-")))
            .collect();
        let expected: Vec<String> = (0..answers / 2)
            .map(|index| format!("{writer}-{index}"))
            .collect();
        assert!(own.into_iter().eq(expected.iter()));
    }
}

#[test]
fn an_answer_that_cannot_be_kept_waits_and_is_written_later() {
    let folder = Folder::new("waits");
    // A folder stands where the journal should be.
    let path = folder.journal();
    fs::create_dir(&path).expect("room");
    let (mut journal, _) = JournalFile::open(&path, "s", &[]);
    let failure = journal.append(&entry("a-0")).expect_err("a folder");
    assert_eq!(failure.waiting, 1);
    assert!(journal.append(&entry("a-1")).is_err());
    assert_eq!(journal.waiting(), 2);
    fs::remove_dir(&path).expect("it is empty");
    journal.append(&entry("a-2")).expect("room for three lines");
    assert_eq!(journal.waiting(), 0);
    assert_eq!(ids(&path), ["a-0", "a-1", "a-2"]);
}

#[test]
fn a_journal_put_in_place_while_another_is_open_gets_the_next_answer() {
    let folder = Folder::new("replaced");
    let path = folder.journal();
    let (mut journal, _) = JournalFile::open(&path, "s", &[]);
    journal.append(&entry("a-0")).expect("room for a line");
    let other = folder.0.join("other");
    fs::write(&other, print(&entry("b-0"))).expect("room");
    fs::rename(&other, &path).expect("same disk");
    journal.append(&entry("a-1")).expect("room for a line");
    assert_eq!(ids(&path), ["b-0", "a-1"]);
}

#[test]
fn what_another_program_is_still_writing_is_not_mended_away() {
    let folder = Folder::new("writing");
    let path = folder.journal();
    let line = print(&entry("a-0"));
    let mut other = OpenOptions::new()
        .create(true)
        .append(true)
        .open(&path)
        .expect("room");
    other.lock().expect("nobody else holds it");
    let (front, back) = line.as_bytes().split_at(40);
    other.write_all(front).expect("room");
    thread::scope(|scope| {
        let writer = scope.spawn(|| {
            let (mut journal, mended) = JournalFile::open(&path, "s", &[]);
            assert_eq!(mended.expect("nothing to mend").set_aside, 0);
            journal.append(&entry("a-1")).expect("room for a line");
        });
        other.write_all(back).expect("room");
        other.unlock().expect("held");
        writer.join().expect("the other writer is well");
    });
    assert_eq!(ids(&path), ["a-0", "a-1"]);
}

#[test]
fn forgetting_one_learner_leaves_all_else_as_it_was() {
    let folder = Folder::new("forget");
    let path = folder.journal();
    let of = |id: &str, learner: &str| {
        let mut entry = entry(id);
        entry.learner = learner.to_owned();
        print(&entry)
    };
    let rest = [
        of("a-0", "ada"),
        "{\"version\":9}\n".into(),
        "nonsense\n".into(),
        of("a-1", "ada"),
    ];
    let text = format!(
        "{}{}{}{}{}{}",
        rest[0],
        of("b-0", "ben"),
        rest[1],
        rest[2],
        of("b-1", "ben"),
        rest[3]
    );
    fs::write(&path, text).expect("room");
    let (mut open, _) = JournalFile::open(&path, "s", &[]);
    assert_eq!(forget(&path, "ben").expect("room"), 2);
    assert_eq!(fs::read_to_string(&path).expect("readable"), rest.concat());
    // Whoever had the journal open goes on in the shorter one.
    open.append(&entry("a-2")).expect("room for a line");
    let after = fs::read_to_string(&path).expect("readable");
    assert_eq!(after, rest.concat() + &print(&entry("a-2")));
    assert_eq!(forget(&folder.0.join("none"), "ben").expect("no file"), 0);
}

#[test]
fn what_the_journal_refuses_is_at_once_in_a_file_of_its_own() {
    let folder = Folder::new("rescued");
    let path = folder.journal();
    fs::create_dir(&path).expect("room");
    let places = [folder.0.join("no/such/folder"), folder.0.clone()];
    let (mut journal, _) = JournalFile::open(&path, "s", &places);
    assert_eq!(journal.settle().expect("nothing waits"), None);
    let error = journal.append(&entry("a-0")).expect_err("a folder");
    assert!(error.elsewhere.is_empty(), "{error}");
    let file = folder.0.join("plagal-unsaved-s.jsonl");
    assert_eq!(ids(&file), ["a-0"]);
    assert!(journal.append(&entry("a-1")).is_err());
    assert_eq!(ids(&file), ["a-0", "a-1"]);
    let rescued = journal.settle().expect("it is rescued").expect("two wait");
    assert_eq!((&rescued.file, rescued.answers), (&file, 2));
    // Nobody is told of it while its program lives; then it can be taken in.
    assert_eq!(left_behind(&places), [] as [PathBuf; 0]);
    drop(journal);
    assert_eq!(left_behind(&places), std::slice::from_ref(&file));
    fs::remove_dir(&path).expect("it is empty");
    assert_eq!(merge(&path, &file).expect("room").added, 2);
    assert_eq!(ids(&path), ["a-0", "a-1"]);
}

#[test]
fn a_rescue_file_goes_once_the_journal_has_its_answers() {
    let folder = Folder::new("discarded");
    let path = folder.journal();
    fs::create_dir(&path).expect("room");
    let places = [folder.0.clone()];
    let (mut journal, _) = JournalFile::open(&path, "s", &places);
    assert!(journal.append(&entry("a-0")).is_err());
    fs::remove_dir(&path).expect("it is empty");
    assert_eq!(journal.settle().expect("room"), None);
    assert_eq!(ids(&path), ["a-0"]);
    assert!(!folder.0.join("plagal-unsaved-s.jsonl").exists());
}

#[test]
fn answers_that_no_file_takes_come_back_with_every_cause() {
    let folder = Folder::new("unsaved");
    let path = folder.journal();
    fs::create_dir(&path).expect("room");
    let nowhere = folder.0.join("nowhere");
    let (mut journal, _) = JournalFile::open(&path, "s", std::slice::from_ref(&nowhere));
    assert!(journal.append(&entry("a-0")).is_err());
    let unsaved = journal.settle().expect_err("no file takes it");
    assert_eq!(unsaved.lines, [print(&entry("a-0"))]);
    let told = unsaved.to_string();
    assert!(told.contains("journal.jsonl`: Is a directory"), "{told}");
    assert!(
        told.contains("plagal-unsaved-s.jsonl`: No such file"),
        "{told}"
    );
    assert_eq!(journal.waiting(), 1);
}

#[test]
fn merging_adds_only_what_is_new_and_lets_newer_lines_come_along() {
    let folder = Folder::new("merged");
    let path = folder.journal();
    let from = folder.0.join("other.jsonl");
    fs::write(&path, print(&entry("a-0"))).expect("room");
    let newer = "{\"version\":9,\"id\":\"n-0\",\"x\":1}\n";
    let gift = format!(
        "{}{newer}nonsense\n{}{}",
        print(&entry("a-0")),
        print(&entry("b-0")),
        print(&entry("b-0"))
    );
    fs::write(&from, &gift).expect("room");
    let expected = Merged {
        added: 2,
        known: 2,
        passed_over: 1,
    };
    assert_eq!(merge(&path, &from).expect("room"), expected);
    let after = fs::read_to_string(&path).expect("readable");
    assert_eq!(
        after,
        format!("{}{newer}{}", print(&entry("a-0")), print(&entry("b-0")))
    );
    assert_eq!(merge(&path, &from).expect("room").added, 0);
    let itself = merge(&path, &path).expect_err("a journal cannot be poured into itself");
    assert!(matches!(itself, MergeError::From(_)));
    let missing = merge(&path, &folder.0.join("none")).expect_err("there is no such file");
    assert!(matches!(missing, MergeError::From(_)));
    assert_eq!(fs::read_to_string(&from).expect("readable"), gift);
}

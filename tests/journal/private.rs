//! The files of answers: for their owner alone, whatever links or leftovers lie about.

use std::fs;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::{Path, PathBuf};

use plagal::host::journal_file::{JournalFile, forget, merge, read_entries};
use plagal::journal::{Entry, JournalLine, parse, print};

const LINE: &str = r#"{"version":1,"id":"a-0","time":1760000000123,"learner":"ada","session":"a","exercise":"borrowed-colours","seed":7,"index":0,"kind":"name-the-chord","key":"G","line":"IV iv I","tempo":96.0,"sound":"upright","texture":"held","key_setting":"tonic","answers":9,"difficulty":{"inversion":0.0,"texture":0.0,"tempo":0.5,"similarity":0.5},"thinking":900,"replays":0,"slots":[{"slot":1,"devices":["minor-four"],"truth":"iv","function":"borrowed subdominant","quality":"minor","degree":"4","bass":"4","answer":"iv","mark":"right","credit":1.0,"heard_as":null}]}"#;

struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("plagal-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).expect("a folder for the test");
        Self(folder)
    }

    fn at(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn entry() -> Entry {
    match parse::<Entry>(LINE) {
        Ok(JournalLine::Known(entry)) => entry,
        other => panic!("expected an entry, found {other:?}"),
    }
}

fn of(learner: &str) -> String {
    print(&Entry {
        learner: learner.to_owned(),
        ..entry()
    })
}

fn append(path: &Path, rescue: &[PathBuf]) -> bool {
    let (mut journal, _) = JournalFile::open(path, "s", rescue);
    journal.append(&entry()).is_ok()
}

fn mode(path: &Path) -> u32 {
    fs::metadata(path)
        .expect("it is there")
        .permissions()
        .mode()
        & 0o777
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).expect("it is text")
}

#[test]
fn whatever_holds_answers_is_for_its_owner_alone() {
    let folder = Folder::new("modes");
    let path = folder.at("data/journal.jsonl");
    assert!(append(&path, &[]));
    assert_eq!((mode(&path), mode(&folder.at("data"))), (0o600, 0o700));
    // A torn line of a program whose files all could read.
    let torn = folder.at("data/journal.jsonl.torn");
    fs::write(&torn, "{\"version\":1,\n").expect("room");
    fs::set_permissions(&torn, fs::Permissions::from_mode(0o644)).expect("own file");
    fs::write(&path, format!("{}{}", of("ben"), &LINE[..90])).expect("room");
    assert!(append(&path, &[]));
    assert_eq!(mode(&torn), 0o600);
    fs::remove_file(&torn).expect("it is there");
    fs::write(&path, format!("{}{}", of("ben"), &LINE[..90])).expect("room");
    assert!(append(&path, &[]));
    assert_eq!(mode(&torn), 0o600);
    assert_eq!(forget(&path, "ben").expect("room"), 1);
    assert_eq!(mode(&path), 0o600);
    fs::create_dir(folder.at("full")).expect("room");
    assert!(!append(&folder.at("full"), std::slice::from_ref(&folder.0)));
    assert_eq!(mode(&folder.at("plagal-unsaved-s.jsonl")), 0o600);
    let merged = folder.at("merged/journal.jsonl");
    assert_eq!(merge(&merged, &path).expect("room").added, 1);
    assert_eq!((mode(&merged), mode(&folder.at("merged"))), (0o600, 0o700));
}

#[test]
fn a_link_to_the_journal_stays_one_and_what_it_leads_to_is_the_journal() {
    let folder = Folder::new("links");
    fs::create_dir(folder.at("far")).expect("room");
    let (near, far) = (folder.at("near.jsonl"), folder.at("far/journal.jsonl"));
    symlink("middle.jsonl", &near).expect("room");
    symlink("far/journal.jsonl", folder.at("middle.jsonl")).expect("room");
    // It leads to nothing yet.
    assert!(append(&near, &[]));
    fs::write(&far, text(&far) + &of("ben") + &LINE[..50]).expect("room");
    assert!(append(&near, &[]));
    assert_eq!(forget(&near, "ben").expect("room"), 1);
    assert!(near.is_symlink());
    assert_eq!(text(&far), print(&entry()).repeat(2));
    let gift = folder.at("gift.jsonl");
    fs::write(&gift, of("cleo")).expect("room");
    assert_eq!(merge(&near, &gift).expect("room").added, 1);
    assert!(near.is_symlink() && text(&far).contains("cleo"));
    let itself = merge(&near, &far).expect_err("they are one");
    assert!(format!("{itself:?}").contains("the journal itself"));
    let left: Vec<_> = fs::read_dir(folder.at("far")).expect("a folder").collect();
    assert_eq!(
        left.len(),
        1,
        "nothing is left beside the journal: {left:?}"
    );
}

#[test]
fn planted_links_are_not_followed() {
    let folder = Folder::new("planted");
    let path = folder.at("journal.jsonl");
    for planted in [".shorter", ".torn"] {
        let victim = folder.at("victim");
        fs::write(&victim, "precious").expect("room");
        let link = folder.at(&format!("journal.jsonl{planted}"));
        symlink(&victim, &link).expect("room");
        fs::write(&path, format!("{}{}{}", of("ben"), of("ada"), &LINE[..50])).expect("room");
        assert!(append(&path, &[]));
        symlink(&victim, folder.at("journal.jsonl.shorter")).expect("the last was removed");
        assert_eq!(forget(&path, "ben").expect("room"), 1);
        assert_eq!(text(&victim), "precious");
        assert!(!path.is_symlink() && !link.exists(), "{planted}");
    }
    // A rescue file is never an old one, nor a link.
    let link = folder.at("plagal-unsaved-s.jsonl");
    symlink(folder.at("victim"), &link).expect("room");
    fs::create_dir(folder.at("full")).expect("room");
    assert!(!append(&folder.at("full"), std::slice::from_ref(&folder.0)));
    assert_eq!(text(&folder.at("victim")), "precious");
}

#[test]
fn what_a_killed_forget_left_is_cleared_away() {
    let folder = Folder::new("leftover");
    let (path, left) = (
        folder.at("journal.jsonl"),
        folder.at("journal.jsonl.shorter"),
    );
    let gift = folder.at("gift.jsonl");
    fs::write(&gift, of("cleo")).expect("room");
    let clearing: [&dyn Fn(); 3] = [
        &|| drop(JournalFile::open(&path, "s", &[])),
        &|| assert_eq!(merge(&path, &gift).expect("room").added, 1),
        &|| assert_eq!(forget(&path, "nobody").expect("room"), 0),
    ];
    for clear in clearing {
        fs::write(&path, of("ben")).expect("room");
        fs::write(&left, of("ada")).expect("room");
        clear();
        assert!(!left.exists());
        assert!(text(&path).starts_with(&of("ben")));
    }
}

#[test]
fn a_byte_order_mark_hides_no_answer() {
    let folder = Folder::new("mark");
    let path = folder.at("journal.jsonl");
    let marked = |learner: &str| format!("\u{feff}{}", of(learner));
    // Files that were joined may have one further down.
    fs::write(&path, marked("ben") + &of("ada") + &marked("ben")).expect("room");
    let read = read_entries(&path).expect("readable");
    assert_eq!((read.entries.len(), read.faults.len()), (3, 0));
    let other = folder.at("other.jsonl");
    assert_eq!(merge(&other, &path).expect("room").added, 2);
    assert_eq!(text(&other), of("ben") + &of("ada"));
    assert_eq!(forget(&path, "ben").expect("room"), 2);
    assert_eq!(text(&path), of("ada"));
}

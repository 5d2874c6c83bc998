//! A user's files beside built-in ones.

use std::fs;
use std::path::{Path, PathBuf};

use super::{Named, Origin, Reason, Shelf};
use crate::document::{self, Faults, Object, Value, text, whole};

#[derive(Debug)]
struct Mug {
    id: String,
    size: u8,
}

impl Named for Mug {
    const FOLDER: &'static str = "mugs";

    fn id(&self) -> &str {
        &self.id
    }
}

fn mug(text: &str) -> Result<Mug, Faults> {
    document::read(text, fields)
}

fn fields(value: &Value, faults: &mut Faults) -> Option<Mug> {
    let mut fields = Object::of(value, faults)?;
    let id = fields.required("id", text(1..=20));
    let size = fields.required("size", whole(1..=9));
    fields.finish();
    Some(Mug {
        id: id?,
        size: size?,
    })
}

fn built_in() -> [Mug; 2] {
    [("red", 2), ("blue", 1)].map(|(id, size)| Mug {
        id: id.to_owned(),
        size,
    })
}

/// A home with these files in the folder of mugs.
fn home(name: &str, files: &[(&str, &[u8])]) -> PathBuf {
    let home = std::env::temp_dir().join(format!("plagal-{}-{name}", std::process::id()));
    let folder = home.join("mugs");
    fs::create_dir_all(&folder).expect("the folder can be made");
    for (name, bytes) in files {
        fs::write(folder.join(name), bytes).expect("the file can be written");
    }
    home
}

fn sizes(shelf: &Shelf<Mug>) -> Vec<(&str, u8)> {
    let things = shelf.things.iter();
    things.map(|m| (m.thing.id(), m.thing.size)).collect()
}

#[test]
fn a_users_file_wins_and_every_bad_file_is_told() {
    let home = home(
        "wins",
        &[
            ("a.json", br#"{"id": "red", "size": 7}"#),
            ("b.json", br#"{"id": "green", "size": 10, "sise": 1}"#),
            ("c.json", br#"{"id": "red", "size": 8}"#),
            ("d.json", b"\xff"),
            ("f.json", br#"{"id": "aqua", "size": 9}"#),
            ("notes.txt", b"not a data file"),
        ],
    );
    let folder = home.join("mugs");
    fs::create_dir_all(folder.join("e.json")).expect("the folder can be made");
    let shelf = Shelf::load(built_in(), Some(&home), mug);
    assert_eq!(sizes(&shelf), [("red", 7), ("blue", 1), ("aqua", 9)]);
    assert_eq!(shelf.things[0].origin, Origin::User(folder.join("a.json")));
    assert_eq!(shelf.things[1].origin, Origin::BuiltIn);
    assert_eq!(shelf.find("red").map(|mug| mug.size), Some(7));
    let bad: Vec<&str> = shelf
        .bad
        .iter()
        .map(|file| match &file.reason {
            Reason::Unreadable(_) => "unreadable",
            Reason::Faulty(faults) if faults.len() == 2 => "two faults",
            Reason::Faulty(_) => "one fault",
            Reason::SameId { .. } => "same id",
            Reason::Unfitting(_) => "unfitting",
        })
        .collect();
    assert_eq!(bad, ["two faults", "same id", "one fault", "unreadable"]);
    fs::remove_dir_all(home).expect("the folder can be removed");
}

#[test]
fn without_a_users_folder_the_built_in_things_remain() {
    for folder in [None, Some(Path::new("/no/such/folder"))] {
        let shelf = Shelf::load(built_in(), folder, mug);
        assert_eq!(sizes(&shelf), [("red", 2), ("blue", 1)]);
        assert!(shelf.bad.is_empty());
    }
}
#[test]
fn every_exercise_of_the_folder_is_built_in() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("exercises");
    let mut on_disk: Vec<(String, String)> = fs::read_dir(folder)
        .expect("the folder is in the repository")
        .map(|entry| entry.expect("it can be listed").path())
        .map(|path| {
            let name = path
                .file_name()
                .expect("a file has a name")
                .to_string_lossy();
            let text = fs::read_to_string(&path).expect("it can be read");
            (name.into_owned(), text)
        })
        .collect();
    on_disk.sort();
    let mut built_in: Vec<(String, String)> = super::EXERCISES
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
        .collect();
    built_in.sort();
    assert_eq!(built_in, on_disk);
}

#[test]
fn what_is_named_is_the_same_when_nothing_else_is_read() {
    let home = home(
        "named",
        &[
            ("a.json", b"no mug at all"),
            ("b.json", br#"{"id": "gr\u0065en", "size": 3}"#),
            ("c.json", br#"{"id": "green", "size": 4}"#),
            ("d.json", br#"{"id": "red", "size": 5}"#),
            ("e.json", br#"{"id": "evergreen", "size": 6}"#),
            ("f.json", br#"{"id": "greeen", "size": 10}"#),
        ],
    );
    let all = Shelf::load(built_in(), Some(&home), mug);
    let read = std::cell::Cell::new(0);
    let counting = |text: &str| {
        read.set(read.get() + 1);
        mug(text)
    };
    let named = Shelf::load_named(built_in(), Some(&home), Some("green"), counting);
    let size = |shelf: &Shelf<Mug>| shelf.find("green").map(|mug| mug.size);
    assert_eq!((size(&all), size(&named)), (Some(3), Some(3)));
    // The one that is hidden by an escape, the one of that id, and one that holds it.
    assert_eq!(read.get(), 3);
    assert_eq!((all.bad.len(), named.bad.len()), (3, 1));
    fs::remove_dir_all(home).expect("it was made above");
}

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

const BUILT_IN: &[(&str, &str)] = &[
    ("blue.json", r#"{"id": "blue", "size": 1}"#),
    ("red.json", r#"{"id": "red", "size": 2}"#),
];

fn folder(name: &str, files: &[(&str, &[u8])]) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("plagal-{}-{name}", std::process::id()));
    fs::create_dir_all(&folder).expect("the folder can be made");
    for (name, bytes) in files {
        fs::write(folder.join(name), bytes).expect("the file can be written");
    }
    folder
}

fn sizes(shelf: &Shelf<Mug>) -> Vec<(&str, u8)> {
    let things = shelf.things.iter();
    things.map(|m| (m.thing.id(), m.thing.size)).collect()
}

#[test]
fn a_users_file_wins_and_every_bad_file_is_told() {
    let folder = folder(
        "wins",
        &[
            ("a.json", br#"{"id": "red", "size": 7}"#),
            ("b.json", br#"{"id": "green", "size": 10, "sise": 1}"#),
            ("c.json", br#"{"id": "red", "size": 8}"#),
            ("d.json", b"\xff"),
            ("notes.txt", b"not a data file"),
        ],
    );
    fs::create_dir_all(folder.join("e.json")).expect("the folder can be made");
    let shelf = Shelf::load(BUILT_IN, Some(&folder), mug);
    assert_eq!(sizes(&shelf), [("blue", 1), ("red", 7)]);
    assert_eq!(shelf.things[0].origin, Origin::BuiltIn);
    assert_eq!(shelf.things[1].origin, Origin::User(folder.join("a.json")));
    assert_eq!(shelf.find("red").map(|mug| mug.size), Some(7));
    let bad: Vec<&str> = shelf
        .bad
        .iter()
        .map(|file| match &file.reason {
            Reason::Unreadable(_) => "unreadable",
            Reason::Faulty(faults) if faults.len() == 2 => "two faults",
            Reason::Faulty(_) => "one fault",
            Reason::SameId { .. } => "same id",
        })
        .collect();
    assert_eq!(bad, ["two faults", "same id", "one fault", "unreadable"]);
    fs::remove_dir_all(folder).expect("the folder can be removed");
}

#[test]
fn without_a_users_folder_the_built_in_things_remain() {
    for folder in [None, Some(Path::new("/no/such/folder"))] {
        let shelf = Shelf::load(BUILT_IN, folder, mug);
        assert_eq!(sizes(&shelf), [("blue", 1), ("red", 2)]);
        assert!(shelf.bad.is_empty());
    }
}

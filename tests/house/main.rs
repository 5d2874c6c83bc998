//! The rules of the house that a machine can check: the order of the floors, the length of
//! files, what every file says of itself.

mod circles;

use std::fs;
use std::path::{Path, PathBuf};

/// The floors from top to bottom; each imports only from those above it.
const FLOORS: [&str; 16] = [
    "document",
    "theory",
    "devices",
    "harmony",
    "arranging",
    "synth",
    "quiz",
    "exercise",
    "journal",
    "scorer",
    "trial",
    "report",
    "host",
    "practice",
    "tui",
    "cli",
];

/// Files aim at 150 lines and stop at 400, tests included.
const LONGEST: usize = 400;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// All Rust files below a folder, with their paths from the root of the repository.
fn rust_files(folder: &Path, found: &mut Vec<(PathBuf, String)>) {
    for entry in fs::read_dir(folder).expect("the folder is in the repository") {
        let path = entry.expect("it can be listed").path();
        if path.is_dir() {
            rust_files(&path, found);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            let text = fs::read_to_string(&path).expect("source is text");
            let path = path.strip_prefix(root()).expect("it is below the root");
            found.push((path.to_owned(), text));
        }
    }
}

fn sources() -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    for folder in ["src", "tests"] {
        rust_files(&root().join(folder), &mut found);
    }
    assert!(found.len() > 60, "the sources are found");
    found
}

/// The floor of a file in `src`; none for `main.rs` and `lib.rs`.
fn floor(path: &Path) -> Option<&str> {
    let mut parts = path.strip_prefix("src").ok()?.iter();
    let first = parts.next()?.to_str()?;
    parts.next().map(|_| first)
}

/// The names that follow `crate::` in a line of code, braces opened.
fn imports(line: &str) -> Vec<&str> {
    let code = line.split("//").next().unwrap_or("");
    let is_part = |c: char| c.is_alphanumeric() || c == '_';
    code.match_indices("crate::")
        .flat_map(|(at, marker)| {
            let rest = &code[at + marker.len()..];
            let list = rest.strip_prefix('{').unwrap_or(rest);
            let list = if list.len() < rest.len() {
                list
            } else {
                list.split(',').next().unwrap_or("")
            };
            list.split(',').map(move |item| {
                let item = item.trim();
                item.split(|c| !is_part(c)).next().unwrap_or("")
            })
        })
        .collect()
}

#[test]
fn every_floor_is_listed() {
    for entry in fs::read_dir(root().join("src")).expect("there are sources") {
        let path = entry.expect("it can be listed").path();
        let name = path
            .file_name()
            .and_then(|name| name.to_str())
            .expect("a plain name");
        if path.is_dir() {
            assert!(
                FLOORS.contains(&name),
                "the floor `{name}` has no place in the order"
            );
        }
    }
}

#[test]
fn floors_import_only_from_above() {
    let place = |name: &str| FLOORS.iter().position(|floor| *floor == name);
    let mut wrong = Vec::new();
    for (path, text) in sources() {
        let Some(own) = floor(&path) else { continue };
        for (number, line) in text.lines().enumerate() {
            for name in imports(line) {
                let below = place(name) > place(own);
                // Documents know no music, and theory knows nothing but itself.
                let beside = (own, name) == ("theory", "document");
                if below || beside {
                    wrong.push(format!("{}:{}: {name}", path.display(), number + 1));
                }
            }
        }
    }
    assert!(
        wrong.is_empty(),
        "imports from below:\n{}",
        wrong.join("\n")
    );
}

#[test]
fn imports_are_recognised() {
    assert_eq!(imports("use crate::theory::{Key, Line};"), ["theory"]);
    assert_eq!(
        imports("use crate::{theory, quiz::Drill};"),
        ["theory", "quiz"]
    );
    assert_eq!(
        imports("fn f(a: crate::host::X, b: crate::tui::Y) {}"),
        ["host", "tui"]
    );
    assert_eq!(imports("// as crate::cli does"), [""; 0]);
}

#[test]
fn files_are_short_and_say_what_they_own() {
    let mut wrong = Vec::new();
    for (path, text) in sources() {
        let lines = text.lines().count();
        if lines > LONGEST {
            wrong.push(format!("{}: {lines} lines", path.display()));
        }
        if !text.starts_with("//! ") {
            wrong.push(format!("{}: begins without `//!`", path.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn nothing_is_left_to_do() {
    // Spelled in two parts, or this file would find itself.
    let marks = [
        concat!("TO", "DO"),
        concat!("FIX", "ME"),
        concat!("todo", "!("),
        concat!("unimplemented", "!("),
    ];
    for (path, text) in sources() {
        for mark in marks {
            assert!(!text.contains(mark), "{} has `{mark}`", path.display());
        }
    }
}

#[test]
fn unsafe_code_is_allowed_in_one_file() {
    let marker = concat!("allow(", "unsafe_code");
    let allowed: Vec<PathBuf> = sources()
        .into_iter()
        .filter(|(_, text)| text.contains(marker))
        .map(|(path, _)| path)
        .collect();
    assert!(allowed.len() <= 1, "{allowed:?}");
}

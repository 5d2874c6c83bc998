//! Files of one floor import each other in no circle: each can be read after those that it
//! needs. An import of a name that a file merely passes on counts as one of where it stands.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use super::{floor, sources};

/// A module by the names from the root of the crate: `theory`, `pitch`.
type Module = Vec<String>;

/// Circles that are still there, each by one of its files: screens are parts of the trainer
/// whose state they change.
const KNOWN: [&str; 1] = ["tui::app"];

/// What a file imports: the name here, and the path it stands for.
#[derive(Default)]
struct File {
    names: BTreeMap<String, Module>,
    paths: Vec<Module>,
}

fn module(path: &Path) -> Module {
    let path = path
        .strip_prefix("src")
        .expect("a source")
        .with_extension("");
    let mut parts: Module = path
        .iter()
        .map(|part| part.to_string_lossy().into_owned())
        .collect();
    if parts.last().is_some_and(|last| last == "mod") {
        parts.pop();
    }
    parts
}

/// The code that is built into the program: neither comments nor tests.
fn code(text: &str) -> String {
    let text = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or("");
    let lines = text
        .lines()
        .map(|line| line.split("//").next().unwrap_or(""));
    // Who may see a thing is no need of it.
    lines
        .collect::<Vec<_>>()
        .join("\n")
        .replace("pub(in crate::", "pub(")
}

/// The paths of a `use`, its braces opened.
fn opened(tree: &str) -> Vec<String> {
    let Some((before, inner)) = tree.trim().split_once('{') else {
        return vec![tree.trim().to_owned()];
    };
    let inner = inner.rsplit_once('}').map_or(inner, |(inner, _)| inner);
    let (mut parts, mut depth) = (vec![String::new()], 0);
    for sign in inner.chars() {
        depth += i32::from(sign == '{') - i32::from(sign == '}');
        if sign == ',' && depth == 0 {
            parts.push(String::new());
        } else {
            parts.last_mut().expect("there is one").push(sign);
        }
    }
    let parts = parts.iter().filter(|part| !part.trim().is_empty());
    parts
        .flat_map(|part| opened(part))
        .map(|path| format!("{before}{path}"))
        .collect()
}

/// A path from the root of the crate, if it is one of ours.
fn from_root(path: &str, here: &Module, all: &BTreeSet<Module>) -> Option<Module> {
    let mut parts = path
        .split("::")
        .map(|part| part.trim().to_owned())
        .peekable();
    let mut base = here.clone();
    match parts.peek()?.as_str() {
        "crate" => {
            base.clear();
            parts.next();
        }
        "self" => _ = parts.next(),
        "super" => {
            while parts.next_if(|part| part == "super").is_some() {
                base.pop();
            }
        }
        child => {
            let child = [base.as_slice(), &[child.to_owned()]].concat();
            all.contains(&child).then_some(())?;
        }
    }
    base.extend(parts);
    Some(base)
}

fn read(text: &str, here: &Module, all: &BTreeSet<Module>) -> File {
    let mut file = File::default();
    let mut rest = String::new();
    for statement in code(text).split_inclusive(';') {
        let Some((before, tree)) = statement.rsplit_once("use ") else {
            rest.push_str(statement);
            continue;
        };
        rest.push_str(before);
        for path in opened(tree.trim_end_matches(';')) {
            let (path, name) = path.split_once(" as ").unwrap_or((&path, ""));
            let Some(found) = from_root(path, here, all) else {
                continue;
            };
            let last = found.last().cloned().unwrap_or_default();
            let name = if name.is_empty() {
                last
            } else {
                name.trim().to_owned()
            };
            file.names.insert(name, found.clone());
            // What is passed on is no need of this file.
            if !before.trim_end().ends_with("pub") && !before.trim_end().ends_with(')') {
                file.paths.push(found);
            }
        }
    }
    let is_part = |c: char| c.is_alphanumeric() || c == '_' || c == ':';
    let words = rest
        .split(|c| !is_part(c))
        .filter(|word| word.contains("::"));
    let paths = words.filter_map(|word| from_root(word, here, all));
    file.paths.extend(paths);
    file
}

/// The module in which the thing at a path stands.
fn home(path: &Module, files: &BTreeMap<Module, File>, depth: u8) -> Option<Module> {
    let split = (1..=path.len())
        .rev()
        .find(|n| files.contains_key(&path[..*n]))?;
    let (module, rest) = path.split_at(split);
    let passed = rest.first().and_then(|name| files[module].names.get(name));
    match passed {
        Some(onward) if depth > 0 && onward != path => {
            home(&[onward, &rest[1..]].concat(), files, depth - 1)
        }
        _ => Some(module.to_vec()),
    }
}

/// Every module that can be reached from one within its floor.
fn reached(from: &Module, needs: &BTreeMap<Module, BTreeSet<Module>>) -> BTreeSet<Module> {
    let (mut found, mut open) = (BTreeSet::new(), vec![from]);
    while let Some(module) = open.pop() {
        for next in &needs[module] {
            if found.insert(next.clone()) {
                open.push(next);
            }
        }
    }
    found
}

fn needs(sources: &BTreeMap<Module, String>) -> BTreeMap<Module, BTreeSet<Module>> {
    let all: BTreeSet<Module> = sources.keys().cloned().collect();
    let files: BTreeMap<Module, File> = sources
        .iter()
        .map(|(module, text)| (module.clone(), read(text, module, &all)))
        .collect();
    let of = |module: &Module, file: &File| {
        let homes = file.paths.iter().filter_map(|path| home(path, &files, 6));
        homes
            .filter(|home| home.first() == module.first() && home != module)
            .collect()
    };
    files
        .iter()
        .map(|(module, file)| (module.clone(), of(module, file)))
        .collect()
}

/// The circles, each as its modules in order.
fn circles(sources: &BTreeMap<Module, String>) -> BTreeSet<Vec<String>> {
    let needs = needs(sources);
    let reached: BTreeMap<&Module, BTreeSet<Module>> = needs
        .keys()
        .map(|module| (module, reached(module, &needs)))
        .collect();
    let round = |module: &Module| reached[module].contains(module);
    needs
        .keys()
        .filter(|module| round(module))
        .map(|module| {
            let circle = reached[module].iter();
            circle
                .filter(|other| reached[*other].contains(module))
                .map(|other| other.join("::"))
                .collect()
        })
        .collect()
}

#[test]
fn files_of_a_floor_import_each_other_in_no_circle() {
    let sources = sources()
        .into_iter()
        .filter(|(path, _)| floor(path).is_some() && !path.to_string_lossy().contains("tests"))
        .map(|(path, text)| (module(&path), text))
        .collect();
    let found = circles(&sources);
    let is_known = |circle: &Vec<String>| circle.iter().any(|file| KNOWN.contains(&file.as_str()));
    let new: Vec<String> = found
        .iter()
        .filter(|circle| !is_known(circle))
        .map(|circle| circle.join(" "))
        .collect();
    assert!(new.is_empty(), "circles:\n{}", new.join("\n"));
    let gone: Vec<&str> = KNOWN
        .into_iter()
        .filter(|known| {
            !found
                .iter()
                .any(|circle| circle.iter().any(|file| file == known))
        })
        .collect();
    assert!(gone.is_empty(), "circles no more: {gone:?}");
}

#[test]
fn circles_are_recognised() {
    let file = |path: &str, text: &str| {
        let module = path.split("::").map(str::to_owned).collect();
        (module, text.to_owned())
    };
    let mut sources = BTreeMap::from([
        file("a", "mod x;\nmod y;\npub use x::X;\n"),
        file("a::x", "use super::y::{self, Y};\n"),
        file(
            "a::y",
            "use crate::b::B;\n#[cfg(test)]\nmod tests {\nuse super::super::X;\n}",
        ),
        file("b", "use crate::a::X;\n"),
    ]);
    // Floors are not compared here, tests may look anywhere, and passing on is no need.
    assert!(circles(&sources).is_empty());
    sources.extend([file("a::y", "use super::{\n    X,\n};\n")]);
    assert_eq!(
        circles(&sources),
        BTreeSet::from([vec!["a::x".to_owned(), "a::y".to_owned()]])
    );
    sources.extend([file("a::y", "fn f() -> crate::a::X {}\n")]);
    assert_eq!(circles(&sources).len(), 1);
}

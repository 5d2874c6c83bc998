//! The library: data files built into the program and those in the user's home, where a
//! user's file wins over a built-in one of the same id. Knows no format of any file.

mod built_in;

use std::collections::HashMap;
use std::fmt;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

pub use built_in::EXERCISES;

use crate::devices::Device;
use crate::document::{self, Faults, LARGEST_FILE, shown};
use crate::exercise::Exercise;
use crate::synth::{Kit, Sound};

/// A file that cannot be used.
#[derive(Debug)]
pub struct BadFile {
    /// As the user named it, or the name of a built-in file.
    pub name: String,
    /// Why it cannot be used.
    pub reason: Reason,
}

/// Why a file cannot be used.
#[derive(Debug)]
pub enum Reason {
    /// The system does not give it.
    Unreadable(io::Error),
    /// It has faults.
    Faulty(Faults),
    /// Another file of the user already has this id.
    SameId {
        /// The id of both.
        id: String,
        /// The name of the other file.
        other: String,
    },
    /// It has no faults of its own, but does not fit the other files.
    Unfitting(String),
}

impl fmt::Display for Reason {
    /// What is wrong; the faults of a faulty file are counted, not told.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable(error) if error.kind() == io::ErrorKind::NotFound => {
                f.write_str("cannot be read: there is no such file")
            }
            Self::Unreadable(error) => write!(f, "cannot be read: {error}"),
            Self::Faulty(faults) if faults.len() == 1 => f.write_str("has a fault"),
            Self::Faulty(faults) => write!(f, "has {} faults", faults.len()),
            Self::SameId { id, other } => {
                write!(f, "has the id `{}` of `{}`", shown(id), shown(other))
            }
            Self::Unfitting(why) => write!(f, "does not fit: {}", shown(why)),
        }
    }
}

impl fmt::Display for BadFile {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` {}", shown(&self.name), self.reason)
    }
}

impl std::error::Error for BadFile {}

impl BadFile {
    /// How many faults are known of it, at least one.
    #[must_use]
    pub fn faults(&self) -> usize {
        match &self.reason {
            Reason::Faulty(faults) => faults.len(),
            Reason::Unreadable(_) | Reason::SameId { .. } | Reason::Unfitting(_) => 1,
        }
    }
}

/// Where a loaded thing came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// It comes with the program.
    BuiltIn,
    /// It is the user's, from this file.
    User(PathBuf),
}

/// A thing from a file.
#[derive(Clone, Debug)]
pub struct Loaded<T> {
    /// What was read.
    pub thing: T,
    /// Where it was read.
    pub origin: Origin,
}

/// All things of one kind, and the files that gave none. The built-in things come in their
/// own order, each replaced by the user's of the same id, then the user's by id.
#[derive(Debug)]
pub struct Shelf<T> {
    /// The things that can be used.
    pub things: Vec<Loaded<T>>,
    /// The files that cannot.
    pub bad: Vec<BadFile>,
}

/// A thing with an id, by which a user's file replaces a built-in one.
pub trait Named {
    /// The folder of such files in the user's home.
    const FOLDER: &'static str;

    /// The id that files and commands name it by.
    fn id(&self) -> &str;
}

impl Named for Device {
    const FOLDER: &'static str = "devices";

    fn id(&self) -> &str {
        self.id.as_str()
    }
}

impl Named for Exercise {
    const FOLDER: &'static str = "exercises";

    fn id(&self) -> &str {
        &self.id
    }
}

impl Named for Sound {
    const FOLDER: &'static str = "sounds";

    fn id(&self) -> &str {
        &self.id
    }
}

impl Named for Kit {
    const FOLDER: &'static str = "kits";

    fn id(&self) -> &str {
        &self.id
    }
}

impl<T: Named> Shelf<T> {
    /// Shelves the built-in things and those of the user's `.json` files in their folder of `home`;
    /// a folder that does not exist is empty.
    pub fn load(
        built_in: impl IntoIterator<Item = T>,
        home: Option<&Path>,
        reader: impl Fn(&str) -> Result<T, Faults>,
    ) -> Self {
        Self::load_named(built_in, home, None, reader)
    }

    /// The same, but of the user's files only those that [`may_name`] `only` are read through,
    /// if it is given. What is found of that id is the same.
    pub fn load_named(
        built_in: impl IntoIterator<Item = T>,
        home: Option<&Path>,
        only: Option<&str>,
        reader: impl Fn(&str) -> Result<T, Faults>,
    ) -> Self {
        let mut bad = Vec::new();
        let mut things: Vec<Loaded<T>> = Vec::new();
        let mut places: HashMap<String, usize> = HashMap::new();
        let folder = home.map(|home| home.join(T::FOLDER));
        let files = folder.map_or_else(Vec::new, |folder| json_files(&folder, &mut bad));
        for path in files {
            match read_named(&path, only, &reader) {
                Err(file) => bad.push(file),
                Ok(None) => {}
                Ok(Some(thing)) => match places.get(thing.id()) {
                    None => {
                        places.insert(thing.id().to_owned(), things.len());
                        things.push(Loaded {
                            thing,
                            origin: Origin::User(path),
                        });
                    }
                    Some(other) => bad.push(BadFile {
                        name: path.display().to_string(),
                        reason: Reason::SameId {
                            id: thing.id().to_owned(),
                            other: things[*other].origin.to_string(),
                        },
                    }),
                },
            }
        }
        things.sort_by(|one, other| one.thing.id().cmp(other.thing.id()));
        let own = built_in.into_iter().map(|thing| {
            let replaced = things
                .iter()
                .position(|known| known.thing.id() == thing.id());
            replaced.map_or(
                Loaded {
                    thing,
                    origin: Origin::BuiltIn,
                },
                |at| things.remove(at),
            )
        });
        let mut all: Vec<Loaded<T>> = own.collect();
        all.append(&mut things);
        Self { things: all, bad }
    }

    /// The thing of an id.
    #[must_use]
    pub fn find(&self, id: &str) -> Option<&T> {
        let found = self.things.iter().find(|known| known.thing.id() == id)?;
        Some(&found.thing)
    }

    /// All ids.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.things.iter().map(|known| known.thing.id())
    }
}

impl fmt::Display for Origin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BuiltIn => f.write_str("built in"),
            Self::User(path) => f.write_str(&shown(&path.display().to_string())),
        }
    }
}

/// The `.json` files of a folder, sorted by name.
fn json_files(folder: &Path, bad: &mut Vec<BadFile>) -> Vec<PathBuf> {
    let mut unreadable = |error| {
        bad.push(BadFile {
            name: folder.display().to_string(),
            reason: Reason::Unreadable(error),
        });
    };
    let entries = match std::fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Vec::new(),
        Err(error) => {
            unreadable(error);
            return Vec::new();
        }
    };
    let mut files = Vec::new();
    for entry in entries {
        match entry {
            Ok(entry) => files.push(entry.path()),
            Err(error) => unreadable(error),
        }
    }
    files.retain(|path| {
        path.extension()
            .is_some_and(|extension| extension == "json")
    });
    files.sort();
    files
}

/// Whether a file with this text may have this id: it is in it, or may be hidden there by
/// JSON's escapes.
#[must_use]
pub fn may_name(text: &[u8], id: &str) -> bool {
    let has = |what: &str| memchr::memmem::find(text, what.as_bytes()).is_some();
    has(id) || has("\\u")
}

/// Reads one JSON data file.
///
/// # Errors
///
/// The file cannot be read, or has faults.
pub fn read_file<T>(
    path: &Path,
    reader: impl FnOnce(&str) -> Result<T, Faults>,
) -> Result<T, BadFile> {
    let read = read_named(path, None, reader)?;
    Ok(read.expect("whatever it names is wanted"))
}

/// The same; nothing if the file cannot be of the id that is wanted.
fn read_named<T>(
    path: &Path,
    only: Option<&str>,
    reader: impl FnOnce(&str) -> Result<T, Faults>,
) -> Result<Option<T>, BadFile> {
    let bad = |reason| BadFile {
        name: path.display().to_string(),
        reason,
    };
    let bytes = read_bounded(path).map_err(|error| bad(Reason::Unreadable(error)))?;
    if only.is_some_and(|id| !may_name(&bytes, id)) {
        return Ok(None);
    }
    let read = document::utf8(&bytes).and_then(reader);
    read.map(Some).map_err(|faults| bad(Reason::Faulty(faults)))
}

/// The bytes of a file, at most one more than a data file may have.
fn read_bounded(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let limit = u64::try_from(LARGEST_FILE).expect("the limit is a million") + 1;
    super::regular::open(path)?
        .take(limit)
        .read_to_end(&mut bytes)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests;

//! A disk as the shim's records tell of it: what is in its cache, what is on it for good, and
//! what is left of both when the power goes or the program dies.
//!
//! The rules are those of POSIX.1-2024 (`fsync`) and of Linux's `fsync(2)`: a flushed file
//! keeps its content, but its name only if the folder was flushed too; a flush that failed
//! has let go of what it did not write. Journalling file systems keep more than that.

use std::collections::{BTreeMap, HashMap};
use std::fs;
use std::os::unix::fs::MetadataExt;
use std::path::{Path, PathBuf};

/// What a call did, or what was told.
#[derive(Debug)]
pub(crate) enum Deed {
    Name(u64, PathBuf),
    Folder(u64, PathBuf),
    Write(u64, usize, Vec<u8>),
    Cut(u64, usize),
    Flush(u64),
    Lose(u64),
    Rename(PathBuf, PathBuf),
    Unlink(PathBuf),
    Out(String),
    Err(String),
}

/// Reads the shim's records.
pub(crate) fn deeds(mut log: &[u8]) -> Vec<Deed> {
    let mut deeds = Vec::new();
    while let Some(at) = log.iter().position(|byte| *byte == b'\n') {
        let words = String::from_utf8(log[..at].to_vec()).expect("our own words");
        let words: Vec<&str> = words.split(' ').collect();
        let number = |at: usize| words[at].parse::<usize>().expect("a number");
        let node = || words[1].parse::<u64>().expect("a number");
        log = &log[at + 1..];
        let mut taken = |length: usize| {
            let bytes = log[..length].to_vec();
            log = &log[length..];
            bytes
        };
        let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
        deeds.push(match words[0] {
            "name" => Deed::Name(node(), words[2].into()),
            "mkdir" => Deed::Folder(node(), words[2].into()),
            "write" => Deed::Write(node(), number(2), taken(number(3))),
            "cut" => Deed::Cut(node(), number(2)),
            "flush" => Deed::Flush(node()),
            "lose" => Deed::Lose(node()),
            "rename" => Deed::Rename(words[2].into(), words[3].into()),
            "unlink" => Deed::Unlink(words[2].into()),
            "out" => Deed::Out(text(taken(number(1)))),
            "err" => Deed::Err(text(taken(number(1)))),
            other => panic!("{other} is no record"),
        });
        log = &log[1..];
    }
    deeds
}

/// How a run ends early.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Loss {
    /// The program dies: all of the cache comes to the disk.
    Killed,
    /// The power goes, and with it all that was not flushed,
    Power,
    /// but names are there,
    PowerNames,
    /// or contents are there,
    PowerContents,
    /// or half of what was added,
    PowerHalf,
    /// or only its length.
    PowerLength,
}

impl Loss {
    pub(crate) const ALL: [Self; 6] = [
        Self::Killed,
        Self::Power,
        Self::PowerNames,
        Self::PowerContents,
        Self::PowerHalf,
        Self::PowerLength,
    ];
}

#[derive(Default)]
struct File {
    flushed: Vec<u8>,
    now: Vec<u8>,
    /// Which bytes of the cache the next flush writes.
    dirty: Vec<bool>,
}

#[derive(Default)]
struct Folder {
    flushed: BTreeMap<PathBuf, u64>,
    now: BTreeMap<PathBuf, u64>,
}

/// The disk. Files and folders are known by numbers that are never used again.
#[derive(Default)]
pub(crate) struct Drive {
    files: HashMap<u64, File>,
    folders: HashMap<u64, Folder>,
    /// The system's numbers.
    nodes: HashMap<u64, u64>,
    next: u64,
    top: PathBuf,
}

impl Drive {
    /// A folder as it is now, all of it flushed.
    pub(crate) fn of(top: &Path) -> Self {
        let mut drive = Self {
            top: top.to_owned(),
            ..Self::default()
        };
        drive.take_in(top);
        drive
    }

    fn take_in(&mut self, path: &Path) -> u64 {
        let data = fs::metadata(path).expect("it is there");
        let id = self.fresh(data.ino());
        if data.is_dir() {
            let mut names = BTreeMap::new();
            for entry in fs::read_dir(path).expect("it is there").flatten() {
                let inside = self.take_in(&entry.path());
                names.insert(entry.path(), inside);
            }
            let (flushed, now) = (names.clone(), names);
            self.folders.insert(id, Folder { flushed, now });
        } else {
            let now = fs::read(path).expect("it can be read");
            let (flushed, dirty) = (now.clone(), vec![false; now.len()]);
            self.files.insert(
                id,
                File {
                    flushed,
                    now,
                    dirty,
                },
            );
        }
        id
    }

    fn fresh(&mut self, node: u64) -> u64 {
        self.next += 1;
        self.nodes.insert(node, self.next - 1);
        self.next - 1
    }

    /// The names in the folder of a path.
    fn beside(&mut self, path: &Path) -> &mut BTreeMap<PathBuf, u64> {
        let mut id = 0;
        let inside = path.strip_prefix(&self.top).expect("it is on the disk");
        let mut at = self.top.clone();
        for name in inside.parent().expect("it is not the top") {
            at.push(name);
            id = self.folders[&id].now[&at];
        }
        &mut self.folders.get_mut(&id).expect("a folder").now
    }

    fn file(&mut self, node: u64) -> &mut File {
        let id = self.nodes[&node];
        self.files.get_mut(&id).expect("a file")
    }

    /// Lets a call act.
    pub(crate) fn act(&mut self, deed: &Deed) {
        match deed {
            Deed::Name(node, path) if !self.beside(path).contains_key(path) => {
                let id = self.fresh(*node);
                self.files.insert(id, File::default());
                self.beside(path).insert(path.clone(), id);
            }
            Deed::Folder(node, path) => {
                let id = self.fresh(*node);
                self.folders.insert(id, Folder::default());
                self.beside(path).insert(path.clone(), id);
            }
            Deed::Write(node, at, bytes) => self.file(*node).write(*at, bytes),
            Deed::Cut(node, length) => {
                let file = self.file(*node);
                file.now.resize(*length, 0);
                file.dirty.resize(*length, false);
            }
            Deed::Flush(node) => {
                let id = self.nodes[node];
                if let Some(folder) = self.folders.get_mut(&id) {
                    folder.flushed = folder.now.clone();
                } else {
                    self.file(*node).flush();
                }
            }
            Deed::Lose(node) => {
                if let Some(file) = self.files.get_mut(&self.nodes[node]) {
                    file.dirty.fill(false);
                }
            }
            Deed::Rename(from, to) => {
                let id = self.beside(from).remove(from).expect("it was there");
                self.beside(to).insert(to.clone(), id);
            }
            Deed::Unlink(path) => {
                self.beside(path).remove(path);
            }
            Deed::Name(..) | Deed::Out(_) | Deed::Err(_) => {}
        }
    }

    /// The files that are found after a loss.
    pub(crate) fn left(&self, loss: Loss) -> BTreeMap<PathBuf, Vec<u8>> {
        let mut left = BTreeMap::new();
        let mut folders = vec![0];
        while let Some(id) = folders.pop() {
            let folder = &self.folders[&id];
            let names = match loss {
                Loss::Power | Loss::PowerContents => &folder.flushed,
                _ => &folder.now,
            };
            for (path, inside) in names {
                match self.files.get(inside) {
                    Some(file) => {
                        left.insert(path.clone(), file.left(loss));
                    }
                    None => folders.push(*inside),
                }
            }
        }
        left
    }
}

impl File {
    fn write(&mut self, at: usize, bytes: &[u8]) {
        let end = (at + bytes.len()).max(self.now.len());
        self.now.resize(end, 0);
        self.dirty.resize(end, false);
        self.now[at..at + bytes.len()].copy_from_slice(bytes);
        self.dirty[at..at + bytes.len()].fill(true);
    }

    fn flush(&mut self) {
        self.flushed.resize(self.now.len(), 0);
        for (at, dirty) in self.dirty.iter_mut().enumerate() {
            if std::mem::take(dirty) {
                self.flushed[at] = self.now[at];
            }
        }
    }

    fn left(&self, loss: Loss) -> Vec<u8> {
        let (old, new) = (self.flushed.len(), self.now.len());
        match loss {
            Loss::Killed | Loss::PowerContents => self.now.clone(),
            Loss::PowerHalf if new > old => {
                let mut half = self.flushed.clone();
                half.extend_from_slice(&self.now[old..old.midpoint(new)]);
                half
            }
            Loss::PowerLength if new > old => {
                let mut long = self.flushed.clone();
                long.resize(new, 0);
                long
            }
            _ => self.flushed.clone(),
        }
    }
}

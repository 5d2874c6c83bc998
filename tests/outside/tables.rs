//! Reads the tables that the Python recipes beside this file wrote with music21.

use std::collections::BTreeSet;

use plagal::theory::PitchClass;

/// The notes of a chord from the bass up, as music21 spells them.
#[derive(Debug)]
pub(crate) struct Cell {
    pub(crate) root: Option<PitchClass>,
    pub(crate) bass: PitchClass,
    pub(crate) notes: Vec<PitchClass>,
}

impl Cell {
    /// Reads `B D F *G`, the root marked.
    pub(crate) fn read(text: &str) -> Self {
        let mut root = None;
        let notes: Vec<PitchClass> = text
            .split(' ')
            .map(|word| {
                let class = note(word.trim_start_matches('*'));
                if word.starts_with('*') {
                    root = Some(class);
                }
                class
            })
            .collect();
        Self {
            root,
            bass: notes[0],
            notes,
        }
    }

    pub(crate) fn names(&self) -> String {
        names(self.notes.iter().copied())
    }
}

pub(crate) fn note(name: &str) -> PitchClass {
    name.parse().unwrap_or_else(|error| panic!("{error}"))
}

/// The names of the notes, each once, in an order that two lists can be compared in.
pub(crate) fn names(notes: impl IntoIterator<Item = PitchClass>) -> String {
    let notes: BTreeSet<PitchClass> = notes.into_iter().collect();
    let names: Vec<String> = notes.iter().map(ToString::to_string).collect();
    names.join(" ")
}

/// The lines of a table without its comments, cut at tabs.
pub(crate) fn rows(table: &str) -> impl Iterator<Item = Vec<&str>> {
    table
        .lines()
        .filter(|line| !line.starts_with("# ") && !line.is_empty())
        .map(|line| line.split('\t').collect())
}

/// A table must say where it comes from, so that a failure can be traced.
pub(crate) fn source(table: &str) -> &str {
    table
        .lines()
        .find_map(|line| line.strip_prefix("# source: "))
        .expect("the recipes write their source")
}

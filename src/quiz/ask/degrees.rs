//! Which degrees of the key does a voice go through? They are typed, such as `6 b6 5`.

use super::fairness::{Blind, Unfair};
use super::form::{AnswerManner, Form, Mark, Misread};
use crate::devices::{Catalogue, DeviceId};
use crate::quiz::material::Material;
use crate::theory::{BareSix, Degree, Notation, OCTAVE};

/// A voice that is followed through some chords of the line.
#[derive(Clone, Debug, PartialEq)]
pub struct DegreesAsk {
    /// The slots it is followed through, ascending.
    slots: Vec<usize>,
    /// Paths that are right, a degree for each slot; the first is the one that is told.
    paths: Vec<Vec<Degree>>,
    given: Option<Vec<Degree>>,
    devices: Vec<DeviceId>,
}

impl DegreesAsk {
    /// # Panics
    /// If there is no path, or one has not a degree for each slot.
    pub(crate) fn new(slots: Vec<usize>, paths: Vec<Vec<Degree>>, devices: Vec<DeviceId>) -> Self {
        let fits = paths.iter().all(|path| path.len() == slots.len());
        assert!(fits && !paths.is_empty(), "a degree for each slot");
        Self {
            slots,
            paths,
            given: None,
            devices,
        }
    }
}

impl Form for DegreesAsk {
    fn devices(&self) -> &[DeviceId] {
        &self.devices
    }

    fn manner(&self) -> AnswerManner {
        AnswerManner::Words
    }

    fn instruction(&self) -> &'static str {
        "Answer with the degrees in their order, such as `6 b6 5`; a note that stays is written once."
    }

    fn example(&self) -> &'static str {
        "degrees, such as 6 b6 5"
    }

    fn truth(&self, notation: Notation) -> String {
        written(&moves(&self.paths[0]), notation)
    }

    fn accepted(&self, notation: Notation) -> Vec<String> {
        let paths = self.paths.iter();
        paths.map(|path| written(&moves(path), notation)).collect()
    }

    fn given(&self, notation: Notation) -> Option<String> {
        Some(written(self.given.as_ref()?, notation))
    }

    fn read(&mut self, text: &str, _six: BareSix) -> Result<(), Misread> {
        let degrees = words(text).map(str::parse);
        let degrees = degrees.collect::<Result<Vec<Degree>, _>>();
        let degrees = degrees.map_err(Misread::Degree)?;
        if degrees.is_empty() {
            return Err(Misread::NoDegrees);
        }
        self.given = Some(moves(&degrees));
        Ok(())
    }

    /// The longest part of the path that is there in its order, over the longer of the two:
    /// notes are compared as they sound.
    fn mark(&self, _material: Material<'_>, _catalogue: &Catalogue) -> Option<Mark> {
        let given = self.given.as_ref()?;
        let share = |path: &Vec<Degree>| {
            let path = moves(path);
            common(&path, given) as f64 / path.len().max(given.len()) as f64
        };
        Some(Mark::of_share(
            self.paths.iter().map(share).fold(0.0, f64::max),
        ))
    }

    fn diagnosis(&self, mark: &Mark, material: Material<'_>, notation: Notation) -> Vec<String> {
        let line = &material.progression.line;
        let under = |at: usize| {
            let numeral = &line.slots()[self.slots[at]].numeral;
            let degree = self.paths[0][at].written(notation);
            format!("{degree} in {}", numeral.written(notation))
        };
        let stations: Vec<String> = (0..self.slots.len()).map(under).collect();
        let mut said = vec![format!("It went {}.", self.truth(notation))];
        if !mark.tier.is_right() {
            let given = self.given(notation).unwrap_or_default();
            said.push(format!("You wrote {given}."));
        }
        said.push(format!("That is {}.", stations.join(", ")));
        said
    }

    /// A degree that is no note of the chord that the symbols say.
    fn unfair(&self, _material: Material<'_>, blind: &dyn Blind) -> Vec<(Unfair, String)> {
        let mut found = Vec::new();
        for (at, slot) in self.slots.iter().enumerate() {
            let numeral = blind.numeral(*slot);
            let notes = numeral.degrees();
            let foreign = self.paths.iter().map(|path| path[at]).find(|degree| {
                let is_note = notes.iter().any(|note| is_same(*note, *degree));
                !is_note && !is_same(numeral.sounding_bass(), *degree)
            });
            found.extend(foreign.map(|degree| (Unfair::Untrue, format!("{degree} in {numeral}"))));
        }
        found
    }
}

/// The words of a path, each of which ends with its number: spaces may be left out.
fn words(text: &str) -> impl Iterator<Item = &str> {
    let parts = text.split([' ', '\t', ',', '-']);
    let words = parts.flat_map(|part| part.split_inclusive(|one: char| one.is_ascii_digit()));
    words.filter(|word| !word.is_empty())
}

/// The path without the notes that stay.
fn moves(path: &[Degree]) -> Vec<Degree> {
    let mut moves = path.to_vec();
    moves.dedup_by(|next, before| is_same(*next, *before));
    moves
}

fn is_same(one: Degree, other: Degree) -> bool {
    let steps = one.interval().chromatic() - other.interval().chromatic();
    steps.rem_euclid(OCTAVE) == 0
}

fn written(degrees: &[Degree], notation: Notation) -> String {
    let degrees: Vec<String> = degrees.iter().map(|one| one.written(notation)).collect();
    degrees.join(" ")
}

/// The length of the longest common subsequence.
fn common(one: &[Degree], other: &[Degree]) -> usize {
    let mut row = vec![0; other.len() + 1];
    for degree in one {
        let mut diagonal = 0;
        for (at, compared) in other.iter().enumerate() {
            let above = row[at + 1];
            row[at + 1] = if is_same(*degree, *compared) {
                diagonal + 1
            } else {
                above.max(row[at])
            };
            diagonal = above;
        }
    }
    row[other.len()]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arranging::Texture;
    use crate::harmony::Progression;
    use crate::theory::{Line, Meter};

    fn degrees(text: &str) -> Vec<Degree> {
        let words = text.split(' ');
        words.map(|word| word.parse().expect("a degree")).collect()
    }

    #[test]
    fn a_path_is_worth_the_part_of_it_that_was_heard() {
        let catalogue = Catalogue::built_in();
        let line = Line::read("IV iv I I", Meter::FourFour, BareSix::AddedSixth).expect("a line");
        let progression = Progression::new("C".parse().expect("a key"), line, &catalogue);
        let wanted = "minor-four".parse().expect("an id");
        let material = Material {
            progression: &progression,
            wanted: &wanted,
            other: None,
            pointed: &[],
            texture: Texture::HeldChords,
        };
        for (typed, credit) in [
            ("6 b6 5", 1.0),
            ("6 b6 5 5", 1.0),
            ("6-♭6-5", 1.0),
            ("6b65", 1.0),
            ("6 #5 5", 1.0),
            ("6 5", 2.0 / 3.0),
            ("6 b6 4", 2.0 / 3.0),
            ("6 b7 b6 5", 0.75),
            ("1 2 3", 0.0),
        ] {
            let mut ask = DegreesAsk::new(vec![0, 1, 2, 3], vec![degrees("6 b6 5 5")], Vec::new());
            ask.read(typed, BareSix::AddedSixth).expect("degrees");
            let mark = ask.mark(material, &catalogue).expect("a mark");
            assert!(
                (mark.credit - credit).abs() < 1e-9,
                "{typed}: {}",
                mark.credit
            );
            assert_eq!(mark.tier.is_right(), credit == 1.0, "{typed}");
        }
        let mut ask = DegreesAsk::new(vec![0], vec![degrees("1")], Vec::new());
        assert!(ask.read("6 h 5", BareSix::AddedSixth).is_err());
        assert_eq!(ask.read(" ", BareSix::AddedSixth), Err(Misread::NoDegrees));
    }
}

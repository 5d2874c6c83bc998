//! One of several things in words: a device, or one of two lines.

use super::fairness::{Blind, Unfair, twins};
use super::form::{AnswerManner, Form, Mark, Misread, offered};
use crate::devices::{Catalogue, Device, DeviceId};
use crate::quiz::material::Material;
use crate::quiz::minimal_pair::line_with;
use crate::theory::{BareSix, Chord, Line, Notation};

/// Which device is in the line?
#[derive(Clone, Debug, PartialEq)]
pub struct DeviceAsk {
    names: Vec<String>,
    ids: Vec<DeviceId>,
    /// Index of the right one.
    truth: usize,
    given: Option<usize>,
}

impl DeviceAsk {
    /// # Panics
    /// If the right device is not on offer.
    pub(in crate::quiz) fn new(offered: &[&Device], right: &DeviceId) -> Self {
        let truth = offered.iter().position(|device| device.id == *right);
        Self {
            names: offered.iter().map(|one| one.name().to_owned()).collect(),
            ids: offered.iter().map(|one| one.id.clone()).collect(),
            truth: truth.expect("the wanted device is on offer"),
            given: None,
        }
    }

    /// The ids of the devices on offer, in their order.
    #[must_use]
    pub fn ids(&self) -> &[DeviceId] {
        &self.ids
    }
}

impl Form for DeviceAsk {
    fn devices(&self) -> &[DeviceId] {
        std::slice::from_ref(&self.ids[self.truth])
    }

    fn manner(&self) -> AnswerManner {
        AnswerManner::Offered
    }

    fn instruction(&self) -> &'static str {
        BY_NUMBER
    }

    fn labels(&self, _notation: Notation) -> Vec<String> {
        self.names.clone()
    }

    fn truth(&self, _notation: Notation) -> String {
        self.names[self.truth].clone()
    }

    fn given(&self, _notation: Notation) -> Option<String> {
        Some(self.names[self.given?].clone())
    }

    fn choose(&mut self, choice: usize) -> bool {
        take(&mut self.given, choice, self.names.len())
    }

    fn read(&mut self, text: &str, _six: BareSix) -> Result<(), Misread> {
        self.given = Some(offered(self, text)?);
        Ok(())
    }

    fn mark(&self, _material: Material<'_>, _catalogue: &Catalogue) -> Option<Mark> {
        let given = self.given?;
        let is_right = given == self.truth;
        Some(Mark {
            heard_as: (!is_right).then(|| self.ids[given].clone()),
            ..Mark::right_if(is_right)
        })
    }

    fn playback(&self, mark: &Mark, material: Material<'_>, all: &Catalogue) -> Option<Line> {
        line_with(material, mark.heard_as.as_ref()?, all)
    }

    fn diagnosis(&self, mark: &Mark, _material: Material<'_>, notation: Notation) -> Vec<String> {
        let named = self.given(notation).filter(|_| !mark.tier.is_right());
        let mut said = vec![format!("It was {}.", self.truth(notation))];
        said.extend(named.map(|named| format!("You named {named}.")));
        said
    }

    /// That the symbols hold another device on offer, or not the right one.
    fn unfair(&self, material: Material<'_>, blind: &dyn Blind) -> Vec<(Unfair, String)> {
        let mut found = twins(&self.names);
        let holds = |id: &DeviceId| blind.holds_at(id, material.pointed);
        for (at, id) in self.ids.iter().enumerate() {
            if at == self.truth && !holds(id) {
                found.push((Unfair::Untrue, id.to_string()));
            } else if at != self.truth && holds(id) {
                found.push((Unfair::AsWellSupported, id.to_string()));
            }
        }
        found
    }

    fn remembered(&self, _material: Material<'_>) -> Option<(Vec<String>, usize)> {
        Some((self.names.clone(), self.truth))
    }

    fn has_neighbours(&self) -> bool {
        true
    }
}

/// Which of two lines holds the device?
#[derive(Clone, Debug, PartialEq)]
pub struct LineAsk {
    device: DeviceId,
    /// The device that the other line holds.
    neighbour: DeviceId,
    /// 0 for the first line, 1 for the second.
    truth: usize,
    given: Option<usize>,
}

const LINES: [&str; 2] = ["the first line", "the second line"];

const BY_NUMBER: &str = "Answer with one of the answers or its number.";

impl LineAsk {
    pub(in crate::quiz) fn new(device: DeviceId, neighbour: DeviceId, is_second: bool) -> Self {
        Self {
            device,
            neighbour,
            truth: usize::from(is_second),
            given: None,
        }
    }
}

impl Form for LineAsk {
    fn devices(&self) -> &[DeviceId] {
        std::slice::from_ref(&self.device)
    }

    fn manner(&self) -> AnswerManner {
        AnswerManner::Offered
    }

    fn instruction(&self) -> &'static str {
        BY_NUMBER
    }

    fn labels(&self, _notation: Notation) -> Vec<String> {
        LINES.map(str::to_owned).to_vec()
    }

    fn truth(&self, _notation: Notation) -> String {
        LINES[self.truth].to_owned()
    }

    fn given(&self, _notation: Notation) -> Option<String> {
        Some(LINES[self.given?].to_owned())
    }

    fn choose(&mut self, choice: usize) -> bool {
        take(&mut self.given, choice, LINES.len())
    }

    fn read(&mut self, text: &str, _six: BareSix) -> Result<(), Misread> {
        self.given = Some(offered(self, text)?);
        Ok(())
    }

    fn mark(&self, _material: Material<'_>, _catalogue: &Catalogue) -> Option<Mark> {
        let is_right = self.given? == self.truth;
        Some(Mark {
            heard_as: (!is_right).then(|| self.neighbour.clone()),
            ..Mark::right_if(is_right)
        })
    }

    /// Of two, the other was chosen: that needs no words.
    fn diagnosis(&self, _mark: &Mark, _material: Material<'_>, notation: Notation) -> Vec<String> {
        vec![format!("It was {}.", self.truth(notation))]
    }

    fn unfair(&self, material: Material<'_>, blind: &dyn Blind) -> Vec<(Unfair, String)> {
        let Some(other) = material.other else {
            return vec![(Unfair::NoRightAnswer, "there is one line".to_owned())];
        };
        let mut found = Vec::new();
        let is_held = blind.finds(&self.device, material.progression);
        if !is_held || self.truth != usize::from(other.is_first) {
            let what = "the right line does not hold the device";
            found.push((Unfair::Untrue, what.to_owned()));
        }
        let line = &other.progression.line;
        if blind.finds(&self.device, &other.progression) {
            found.push((Unfair::AsWellSupported, line.to_string()));
        }
        if sounds(&material.progression.line, material) == sounds(line, material) {
            found.push((Unfair::Twins, "both lines sound alike".to_owned()));
        }
        found
    }

    fn class(&self, _material: Material<'_>) -> Option<usize> {
        Some(self.truth)
    }

    fn has_neighbours(&self) -> bool {
        true
    }
}

fn take(given: &mut Option<usize>, choice: usize, count: usize) -> bool {
    let exists = choice < count;
    if exists {
        *given = Some(choice);
    }
    exists
}

/// The notes of each chord above its bass, all of them as they sound.
fn sounds(line: &Line, material: Material<'_>) -> Vec<(i32, Vec<i32>)> {
    let key = material.progression.key;
    let sound = |numeral| {
        let chord = Chord::new(numeral, key).expect("questions spell their chords");
        let mut notes: Vec<i32> = chord.notes().iter().map(|note| note.chromatic()).collect();
        notes.sort_unstable();
        (chord.bass().chromatic(), notes)
    };
    line.numerals().map(sound).collect()
}

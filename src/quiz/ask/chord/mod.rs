//! What does this chord do? A numeral is the answer, typed or one of those on offer.

mod diagnosis;
mod fair;
mod typed;

use diagnosis::{diagnosis, function};

use super::fairness::{Blind, Unfair};
use super::form::{AnswerManner, Form, Mark, Misread, offered};
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::{ChordInContext, Context, Progression};
use crate::quiz::material::Material;
use crate::quiz::place::place;
use crate::theory::{BareSix, Chord, Line, Notation, Numeral};

/// The function of one chord.
#[derive(Clone, Debug, PartialEq)]
pub struct ChordAsk {
    slot: usize,
    truth: Box<ChordInContext>,
    /// None where the answer is typed.
    choices: Vec<Numeral>,
    given: Option<Numeral>,
    devices: Vec<DeviceId>,
}

impl ChordAsk {
    /// `choices` are empty where the answer is typed.
    pub(crate) fn new(
        slot: usize,
        truth: ChordInContext,
        choices: Vec<Numeral>,
        devices: Vec<DeviceId>,
    ) -> Self {
        Self {
            slot,
            truth: Box::new(truth),
            choices,
            given: None,
            devices,
        }
    }
}

impl Form for ChordAsk {
    fn slot(&self) -> Option<usize> {
        Some(self.slot)
    }

    fn devices(&self) -> &[DeviceId] {
        &self.devices
    }

    fn manner(&self) -> AnswerManner {
        if self.choices.is_empty() {
            AnswerManner::Typed
        } else {
            AnswerManner::Offered
        }
    }

    fn instruction(&self) -> &'static str {
        match self.manner() {
            AnswerManner::Typed => {
                "Answer with a numeral, such as `iv` or `V7/ii`; several in one line where several are asked."
            }
            AnswerManner::Offered | AnswerManner::Words | AnswerManner::OnChart => {
                "Answer with a numeral or its number; several in one line where several are asked."
            }
        }
    }

    fn example(&self) -> &'static str {
        "a numeral, such as V7/ii or iv"
    }

    fn prompt(&self, line: &Line) -> Option<String> {
        Some(format!("What does the {} do?", place(line, self.slot)))
    }

    fn labels(&self, notation: Notation) -> Vec<String> {
        let choices = self.choices.iter();
        choices.map(|choice| choice.written(notation)).collect()
    }

    fn truth(&self, notation: Notation) -> String {
        self.truth.usual().written(notation)
    }

    fn accepted(&self, notation: Notation) -> Vec<String> {
        self.truth.accepted_written(notation)
    }

    fn given(&self, notation: Notation) -> Option<String> {
        Some(self.given.as_ref()?.written(notation))
    }

    fn choose(&mut self, choice: usize) -> bool {
        let chosen = self.choices.get(choice).cloned();
        let exists = chosen.is_some();
        self.given = chosen.or_else(|| self.given.take());
        exists
    }

    fn read(&mut self, text: &str, six: BareSix) -> Result<(), Misread> {
        let is_number = text.chars().all(|character| character.is_ascii_digit());
        let numeral = if is_number && !self.choices.is_empty() {
            self.choices[offered(self, text)?].clone()
        } else {
            typed::read(text, &self.truth, six).map_err(Misread::Numeral)?
        };
        self.given = Some(numeral);
        Ok(())
    }

    fn chord(&self) -> Option<&ChordInContext> {
        Some(&self.truth)
    }

    fn mark(&self, material: Material<'_>, catalogue: &Catalogue) -> Option<Mark> {
        let named = self.given.as_ref()?;
        let tier = self.truth.judge(named);
        let heard_as = || self.device_of(named, material.progression, catalogue);
        Some(Mark::of(
            tier,
            if tier.is_right() { None } else { heard_as() },
        ))
    }

    fn playback(&self, mark: &Mark, material: Material<'_>, _all: &Catalogue) -> Option<Line> {
        let named = self.given.clone().filter(|_| !mark.tier.is_right())?;
        Some(material.progression.line.with(self.slot, named))
    }

    fn diagnosis(&self, mark: &Mark, material: Material<'_>, notation: Notation) -> Vec<String> {
        let usual = self.truth.usual();
        let accepted = self.truth.accepted();
        let other = accepted.iter().find(|name| {
            name.without_bass() != usual && name.target.is_some() != usual.target.is_some()
        });
        let other = other
            .map(|name| name.written(notation))
            .or_else(|| self.truth.sign(notation));
        let also = other.map_or_else(String::new, |name| format!(" (or {name})"));
        let mut said = vec![format!(
            "It was {}{also}: {}.",
            usual.written(notation),
            function(&self.truth, notation)
        )];
        if let Some(named) = &self.given {
            let name = named.written(notation);
            let words = diagnosis(&self.truth, named, mark.tier, notation);
            said.extend(words.map(|words| format!("You named {name}: {words}.")));
        }
        said.extend(self.spelled(material.progression, notation));
        said
    }

    fn unfair(&self, material: Material<'_>, blind: &dyn Blind) -> Vec<(Unfair, String)> {
        let progression = material.progression;
        let context = Context::in_line(&progression.line, self.slot, progression.key.mode());
        let mut found = fair::accepted(&self.truth, &context);
        let sounds = blind.numeral(self.slot);
        if !self.truth.judge(sounds).is_right() {
            found.push((Unfair::Untrue, sounds.to_string()));
        }
        found.extend(fair::offered(&self.truth, &context, &self.choices));
        found
    }

    fn remembered(&self, _material: Material<'_>) -> Option<(Vec<String>, usize)> {
        let is_right = |choice| self.truth.judge(choice).is_right();
        let right = self.choices.iter().position(is_right)?;
        Some((self.labels(Notation::Text), right))
    }

    fn has_neighbours(&self) -> bool {
        true
    }
}

impl ChordAsk {
    /// The device that the line would have held there with this numeral.
    fn device_of(
        &self,
        named: &Numeral,
        progression: &Progression,
        catalogue: &Catalogue,
    ) -> Option<DeviceId> {
        let line = progression.line.with(self.slot, named.clone());
        let heard = Progression::new(progression.key, line, catalogue);
        let own: Vec<&DeviceId> = progression.devices_at(self.slot).collect();
        let mut devices = heard.devices_at(self.slot);
        devices.find(|id| !own.contains(id)).cloned()
    }

    /// The chord as a player would write it down: its symbol and its notes.
    fn spelled(&self, progression: &Progression, notation: Notation) -> Option<String> {
        let numeral = &progression.line.slots().get(self.slot)?.numeral;
        let chord = Chord::new(numeral, progression.key).ok()?;
        let notes = chord.notes();
        let notes: Vec<String> = notes.iter().map(|note| note.written(notation)).collect();
        let respelled = chord.symbol().as_played(progression.key) != chord.symbol();
        let spelled = if respelled { ", spelled" } else { ":" };
        Some(format!(
            "In {} that is {}{spelled} {}.",
            progression.key.written(notation),
            chord.written(notation),
            notes.join(" ")
        ))
    }
}

//! Which chords have a note outside the key? Any number of slots is the answer.

use super::fairness::{Blind, Unfair};
use super::form::{AnswerManner, Form, Mark, Misread};
use crate::devices::{Catalogue, DeviceId};
use crate::quiz::material::Material;
use crate::theory::{BareSix, Chord, Degree, IntervalClass, Line, Notation, Numeral};

/// Slots in ascending order, as truth and as answer.
#[derive(Clone, Debug, PartialEq)]
pub struct SlotsAsk {
    truth: Vec<usize>,
    given: Vec<usize>,
    /// How many slots the line has.
    count: usize,
    devices: Vec<DeviceId>,
}

impl SlotsAsk {
    /// `truth` in ascending order, of a line of `count` slots.
    pub(crate) fn new(truth: Vec<usize>, count: usize, devices: Vec<DeviceId>) -> Self {
        Self {
            truth,
            given: Vec::new(),
            count,
            devices,
        }
    }
}

impl Form for SlotsAsk {
    fn devices(&self) -> &[DeviceId] {
        &self.devices
    }

    fn manner(&self) -> AnswerManner {
        AnswerManner::OnChart
    }

    fn instruction(&self) -> &'static str {
        "Answer with the numbers of the chords, all in one line."
    }

    fn truth(&self, _notation: Notation) -> String {
        numbers(&self.truth)
    }

    fn given(&self, _notation: Notation) -> Option<String> {
        Some(numbers(&self.given))
    }

    fn read(&mut self, text: &str, _six: BareSix) -> Result<(), Misread> {
        let slot = |word: &str| match word.parse::<usize>() {
            Ok(number) if (1..=self.count).contains(&number) => Ok(number - 1),
            Ok(_) | Err(_) => Err(Misread::NoChord {
                found: word.to_owned(),
                chords: self.count,
            }),
        };
        let words = text.split([' ', '\t', ',']).filter(|word| !word.is_empty());
        let mut slots = words.map(slot).collect::<Result<Vec<usize>, Misread>>()?;
        slots.sort_unstable();
        slots.dedup();
        self.given = slots;
        Ok(())
    }

    fn toggle(&mut self, slot: usize) -> bool {
        match self.given.binary_search(&slot) {
            Ok(at) => {
                self.given.remove(at);
            }
            Err(at) if slot < self.count => self.given.insert(at, slot),
            Err(_) => {}
        }
        true
    }

    fn marked_slots(&self) -> Option<&[usize]> {
        Some(&self.given)
    }

    fn points_at(&self, slot: usize) -> bool {
        self.truth.contains(&slot)
    }

    /// Slots in both over slots in either.
    fn mark(&self, _material: Material<'_>, _catalogue: &Catalogue) -> Option<Mark> {
        let both = without(&self.truth, &without(&self.truth, &self.given)).len();
        let either = self.truth.len() + self.given.len() - both;
        Some(Mark::of_share(if either == 0 {
            1.0
        } else {
            both as f64 / either as f64
        }))
    }

    fn diagnosis(&self, _mark: &Mark, material: Material<'_>, notation: Notation) -> Vec<String> {
        let slots = material.progression.line.slots();
        let named = |these: &[usize]| {
            let names = these
                .iter()
                .map(|slot| slots[*slot].numeral.written(notation));
            names.collect::<Vec<String>>().join(", ")
        };
        let missed = without(&self.truth, &self.given);
        let within = without(&self.given, &self.truth);
        let mut said = vec![format!("Outside the key: {}.", named(&self.truth))];
        if !missed.is_empty() && missed.len() < self.truth.len() {
            said.push(format!("You passed over {}.", named(&missed)));
        }
        if !within.is_empty() {
            said.push(format!("In the key, and marked: {}.", named(&within)));
        }
        said
    }

    /// Slots that count as out of the key without a note outside it, and the other way
    /// round. Whether a note stands outside is told by its sound, as it is by ear.
    fn unfair(&self, material: Material<'_>, _blind: &dyn Blind) -> Vec<(Unfair, String)> {
        let key = material.progression.key;
        let scale: Vec<i32> = (-7..=7)
            .map(|fifths| Degree::at(IntervalClass::from_fifths(fifths)))
            .filter(|degree| key.holds(*degree))
            .map(|degree| key.note(degree).chromatic())
            .collect();
        let leaves = |numeral: &Numeral| {
            let chord = Chord::new(numeral, key).expect("questions spell their chords");
            let notes = chord.notes();
            notes.iter().any(|note| !scale.contains(&note.chromatic()))
        };
        let line: &Line = &material.progression.line;
        let chords = line.numerals().enumerate();
        chords
            .filter(|(slot, numeral)| leaves(numeral) != self.truth.contains(slot))
            .map(|(slot, numeral)| (Unfair::Untrue, format!("{numeral} in slot {slot}")))
            .collect()
    }
}

/// Slots as numbers from 1.
fn numbers(slots: &[usize]) -> String {
    if slots.is_empty() {
        return "none".to_owned();
    }
    let numbers: Vec<String> = slots.iter().map(|slot| (slot + 1).to_string()).collect();
    numbers.join(" ")
}

fn without(slots: &[usize], others: &[usize]) -> Vec<usize> {
    let slots = slots.iter().copied();
    slots.filter(|slot| !others.contains(slot)).collect()
}

//! What a mark says.

use super::answer::{Answer, Form};
use super::astray::{astray, function};
use super::mark::Mark;
use super::question::{Ask, Question, Truth};
use super::tell::where_home_comes;
use crate::harmony::Sounding;
use crate::theory::{Chord, Key, Notation};

impl Mark {
    /// What the mark says: the truth, what it does, its other names, and where the answer
    /// went astray.
    #[must_use]
    pub fn sentences(&self, question: &Question, ask: &Ask, notation: Notation) -> Vec<String> {
        let truth = ask.truth_written(notation);
        match &ask.truth {
            Truth::Chord(sounding) => {
                let mut said = self.on_chord(sounding, notation);
                said.extend(ask.slot.and_then(|slot| spelled(question, slot, notation)));
                said
            }
            Truth::Choice(_) => self.on_choice(&truth, ask, notation),
            Truth::Key(key) => {
                let mut said = self.on_key(*key, question, notation);
                if ask.told_by(question).is_none() {
                    said.extend(where_home_comes(question));
                }
                said
            }
            Truth::Slots(slots) => self.on_slots(slots, question, notation),
        }
    }

    fn on_chord(&self, sounding: &Sounding, notation: Notation) -> Vec<String> {
        let usual = sounding.usual();
        let accepted = sounding.accepted();
        let other = accepted.iter().find(|name| {
            name.without_bass() != usual && name.target.is_some() != usual.target.is_some()
        });
        let other = other
            .map(|name| name.written(notation))
            .or_else(|| sounding.sign(notation));
        let also = other.map_or_else(String::new, |name| format!(" (or {name})"));
        let mut said = vec![format!(
            "It was {}{also}: {}.",
            usual.written(notation),
            function(sounding, notation)
        )];
        if let Answer::Numeral { numeral, .. } = &self.answer {
            let name = numeral.written(notation);
            let words = astray(sounding, numeral, self.tier, notation);
            said.extend(words.map(|words| format!("You named {name}: {words}.")));
        }
        said
    }

    fn on_choice(&self, truth: &str, ask: &Ask, notation: Notation) -> Vec<String> {
        let mut said = vec![format!("It was {truth}.")];
        // Of two, the other was chosen: that needs no words.
        let is_one_of_many = matches!(&ask.form, Form::OneOf { choices } if choices.len() > 2);
        if is_one_of_many && !self.tier.is_right() {
            let named = self.answer.written(&ask.form, notation);
            said.push(format!("You named {named}."));
        }
        said
    }

    fn on_key(&self, key: Key, question: &Question, notation: Notation) -> Vec<String> {
        let mut said = vec![format!("Home is {}.", key.written(notation))];
        let Some(first) = question.progression.line.numerals().next() else {
            return said;
        };
        let opening = format!("The line opens on its {}", first.written(notation));
        let root = Chord::new(first, key).map(|chord| chord.root().chromatic());
        said.push(match self.answer {
            Answer::Key(named) if named != key && root == Ok(named.tonic().chromatic()) => {
                format!("{opening}, which you took for home.")
            }
            Answer::Key(named) if named != key => {
                format!("{opening}. You named {}.", named.written(notation))
            }
            _ => format!("{opening}."),
        });
        said
    }

    fn on_slots(&self, truth: &[usize], question: &Question, notation: Notation) -> Vec<String> {
        let slots = question.progression.line.slots();
        let named = |slots_of: Vec<usize>| {
            let names = slots_of
                .iter()
                .map(|slot| slots[*slot].numeral.written(notation));
            names.collect::<Vec<String>>().join(", ")
        };
        let without = |of: &[usize], these: &[usize]| -> Vec<usize> {
            of.iter()
                .copied()
                .filter(|slot| !these.contains(slot))
                .collect()
        };
        let mut said = vec![format!("Outside the key: {}.", named(truth.to_vec()))];
        if let Answer::Slots(marked) = &self.answer {
            let (missed, within) = (without(truth, marked), without(marked, truth));
            if !missed.is_empty() && missed.len() < truth.len() {
                said.push(format!("You passed over {}.", named(missed)));
            }
            if !within.is_empty() {
                said.push(format!("In the key, and marked: {}.", named(within)));
            }
        }
        said
    }
}

/// The chord of a slot as a player would write it down: its symbol and its notes.
fn spelled(question: &Question, slot: usize, notation: Notation) -> Option<String> {
    let numeral = &question.progression.line.slots().get(slot)?.numeral;
    let key = question.key();
    let chord = Chord::new(numeral, key).ok()?;
    let notes = chord.notes();
    let notes: Vec<String> = notes.iter().map(|note| note.written(notation)).collect();
    Some(format!(
        "In {} that is {}: {}.",
        key.written(notation),
        chord.symbol().written(notation),
        notes.join(" ")
    ))
}

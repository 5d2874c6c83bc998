//! Which of two lines holds a device? The other line is the same but for the chords that
//! turn the device into one of its neighbours.

use rand::RngExt;
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::unsuited;
use crate::devices::{Catalogue, Device, Expansion};
use crate::harmony::{Progression, Sounding};
use crate::quiz::answer::Form;
use crate::quiz::question::{Ask, NoQuestion, Other, Prompt, Question, Truth};
use crate::theory::{Line, Numeral, Slot};

/// The most chords by which the lines may differ.
const MOST_CHANGES: usize = 2;

pub(super) fn ask(
    question: &mut Question,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    let wanted = catalogue
        .get(&question.wanted)
        .ok_or_else(|| unsuited(question))?;
    let (neighbour, progression) =
        twin(question, wanted, catalogue, random).ok_or_else(|| unsuited(question))?;
    let is_first = random.random_bool(0.5);
    question.prompt = Prompt::Plain(format!("Which line has the {}?", wanted.name()));
    question.asks = vec![Ask {
        slot: None,
        form: Form::OneOf {
            choices: vec!["the first line".to_owned(), "the second line".to_owned()],
        },
        truth: Truth::Choice(usize::from(is_first)),
        devices: vec![wanted.id.clone()],
        offered: if is_first {
            vec![neighbour.id.clone(), wanted.id.clone()]
        } else {
            vec![wanted.id.clone(), neighbour.id.clone()]
        },
    }];
    question.other = Some(Other {
        progression,
        is_first,
    });
    Ok(())
}

/// The line with as few chords changed as turn the device into a neighbour of it.
fn twin<'c>(
    question: &Question,
    wanted: &Device,
    catalogue: &'c Catalogue,
    random: &mut ChaCha8Rng,
) -> Option<(&'c Device, Progression)> {
    let mode = question.key().mode();
    let mut neighbours: Vec<&Device> = wanted
        .neighbours
        .iter()
        .filter_map(|id| catalogue.get(id))
        .collect();
    neighbours.shuffle(random);
    let mut best: Option<(usize, &Device, Progression)> = None;
    for neighbour in neighbours {
        for expansion in neighbour.expansions_in(mode) {
            for (changes, line) in replaced(question, expansion) {
                if best
                    .as_ref()
                    .is_some_and(|(fewest, _, _)| *fewest <= changes)
                {
                    continue;
                }
                let other = Progression::new(question.key(), line, catalogue);
                if other.occurrence(&wanted.id).is_none()
                    && other.occurrence(&neighbour.id).is_some()
                {
                    best = Some((changes, neighbour, other));
                }
            }
        }
    }
    best.map(|(_, neighbour, progression)| (neighbour, progression))
}

/// The line with the expansion's chords put wherever they touch the device and change
/// few of its chords.
fn replaced(question: &Question, expansion: &Expansion) -> Vec<(usize, Line)> {
    let line = &question.progression.line;
    let Some(found) = question.progression.occurrence(&question.wanted) else {
        return Vec::new();
    };
    let chords: Vec<&Numeral> = expansion.chords().map(|wanted| &wanted.numeral).collect();
    let Some(last) = line.slots().len().checked_sub(chords.len()) else {
        return Vec::new();
    };
    let from = found.own.start.saturating_sub(chords.len());
    (from..=found.own.end.min(last))
        .filter_map(|from| {
            let mut slots: Vec<Slot> = line.slots().to_vec();
            let mut changes = 0;
            for (chord, slot) in chords.iter().zip(from..) {
                let kept = Sounding::of(line, slot, question.key().mode())
                    .judge(chord)
                    .is_right();
                if !kept {
                    slots[slot].numeral = (*chord).clone();
                    changes += 1;
                }
            }
            let other = Line::new(line.meter(), slots);
            let whole = other.slots().len() == line.slots().len();
            ((1..=MOST_CHANGES).contains(&changes) && whole).then_some((changes, other))
        })
        .collect()
}

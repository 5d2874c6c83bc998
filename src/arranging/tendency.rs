//! Where the notes of a chord want to go when the next one comes.

use super::palette::{Alteration, Ingredient, Palette, Tendency};
use crate::theory::{IntervalClass, Member, OCTAVE};

/// A note's tendency and the steps that satisfy it where the next chord allows them.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pull {
    pub(super) tendency: Tendency,
    /// Bit `n` stands for a move of `n - 2` semitones.
    steps: u8,
}

impl Pull {
    pub(super) fn is_met_by(self, step: i32) -> bool {
        (-2..=2).contains(&step) && self.steps & 1 << (step + 2) != 0
    }
}

/// The pull on one note of `from` before `to`; none if it has no tendency or if `to`
/// holds no note that could satisfy it.
pub(super) fn pull(from: &Palette, note: &Ingredient, to: &Palette) -> Option<Pull> {
    let (tendency, choices) = wish(from, note, to)?;
    let received = |steps: &[i32]| {
        steps
            .iter()
            .filter(|step| to.receives((note.chroma() + **step).rem_euclid(OCTAVE), tendency))
            .fold(0, |bits, step| bits | 1 << (step + 2))
    };
    choices
        .iter()
        .map(|steps| received(steps))
        .find(|steps| *steps != 0)
        .map(|steps| Pull { tendency, steps })
}

/// The moves in semitones that satisfy a note, the better ones in the first list; the
/// second counts only where the first is out of reach.
type Choices = &'static [&'static [i32]];

fn wish(from: &Palette, note: &Ingredient, to: &Palette) -> Option<(Tendency, Choices)> {
    let falls_a_semitone = (from.root.chromatic() - to.root.chromatic()).rem_euclid(OCTAVE) == 1;
    let acts_as_substitute = from.substitute || falls_a_semitone;
    if from.leading_tone == Some(note.class) {
        // Up to its tonic; held; or down into the seventh of the next dominant.
        return Some((Tendency::LeadingTone, &[&[1, 0, -1]]));
    }
    if note.member == Member::Seventh {
        // In a substitute the seventh is the leading tone under another name.
        let choices: Choices = if acts_as_substitute {
            &[&[1, 0, -1]]
        } else {
            &[&[0, -1, -2]]
        };
        return Some((Tendency::Seventh, choices));
    }
    if note.member == Member::Third && from.suspended {
        return Some((Tendency::Altered, &[&[0, -1, -2]]));
    }
    let flat_ninth = note.class.above(from.root) == IntervalClass::MINOR_SECOND;
    if note.member == Member::Tension && flat_ninth {
        return Some((Tendency::Altered, &[&[0, -1]]));
    }
    if from.is_flat_second(note.class) {
        return Some((Tendency::Altered, &[&[0, -1, -2]]));
    }
    if from.diminished_seventh {
        return Some((Tendency::Altered, &[&[0, 1, 2, -1, -2]]));
    }
    match from.alteration(note.class) {
        Alteration::Raised => Some((Tendency::Altered, &[&[0, 1], &[-1]])),
        Alteration::Lowered => Some((Tendency::Altered, &[&[0, -1], &[1]])),
        Alteration::None => None,
    }
}

/// A letter that the next chord inflects: the note of `from` and the semitone it moves by.
/// It should move within one voice, unless the note wants to go elsewhere.
pub(super) fn inflections(from: &Palette, to: &Palette) -> Vec<(usize, i32)> {
    let mut found = Vec::new();
    for (index, note) in from.ingredients.iter().enumerate() {
        if to.has(note.chroma()) {
            continue;
        }
        for step in [1, -1] {
            let inflected = note.class.up(IntervalClass::from_fifths(7 * step as i16));
            let arrives = to
                .ingredients
                .iter()
                .any(|other| other.class == inflected && other.most > 0);
            if arrives && pull(from, note, to).is_none_or(|pull| pull.is_met_by(step)) {
                found.push((index, step));
            }
        }
    }
    found
}

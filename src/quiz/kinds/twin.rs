//! The same line with another device in the place of the one that is asked.

use crate::devices::{Catalogue, Device, DeviceId, Expansion};
use crate::harmony::{Progression, Sounding};
use crate::quiz::question::Question;
use crate::theory::{Line, Numeral, Slot};

/// The line with as few chords changed, and at most so many, as turn its device into one of
/// the others; the earlier of them where several take as few.
pub(super) fn twin<'c>(
    question: &Question,
    others: &[&'c Device],
    most: usize,
    catalogue: &Catalogue,
) -> Option<(&'c Device, Progression)> {
    let mode = question.key().mode();
    let mut best: Option<(usize, &Device, Progression)> = None;
    for other in others {
        for expansion in other.expansions_in(mode) {
            for (changes, line) in replaced(question, expansion, most) {
                if best
                    .as_ref()
                    .is_some_and(|(fewest, _, _)| *fewest <= changes)
                {
                    continue;
                }
                let twin = Progression::new(question.key(), line, catalogue);
                if twin.occurrence(&question.wanted).is_none()
                    && twin.occurrence(&other.id).is_some()
                {
                    best = Some((changes, other, twin));
                }
            }
        }
    }
    best.map(|(_, other, progression)| (other, progression))
}

/// The line as it would be if the device it was taken for were in it.
pub(in crate::quiz) fn line_with(
    question: &Question,
    device: &DeviceId,
    catalogue: &Catalogue,
) -> Option<Line> {
    let device = catalogue.get(device)?;
    twin(question, &[device], usize::MAX, catalogue).map(|(_, twin)| twin.line)
}

/// The line with the expansion's chords put wherever they touch the device and change few
/// of its chords.
fn replaced(question: &Question, expansion: &Expansion, most: usize) -> Vec<(usize, Line)> {
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
            ((1..=most).contains(&changes) && whole).then_some((changes, other))
        })
        .collect()
}

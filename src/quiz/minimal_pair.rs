//! The same line with another device in the place of the one that is asked.

use super::material::Material;
use crate::devices::{Catalogue, Device, DeviceId, Expansion};
use crate::harmony::{ChordInContext, Progression};
use crate::theory::{Line, Numeral, Slot};

/// The line with as few chords changed, and at most so many, as turn its device into one of
/// the others; the earlier of them where several take as few.
pub(super) fn minimal_pair<'c>(
    material: Material<'_>,
    others: &[&'c Device],
    most: usize,
    catalogue: &Catalogue,
) -> Option<(&'c Device, Progression)> {
    let mode = material.progression.key.mode();
    let mut best: Option<(usize, &Device, Progression)> = None;
    for other in others {
        for expansion in other.expansions_in(mode) {
            for (changes, line) in replaced(material, expansion, most) {
                if best
                    .as_ref()
                    .is_some_and(|(fewest, _, _)| *fewest <= changes)
                {
                    continue;
                }
                let twin = Progression::new(material.progression.key, line, catalogue);
                if twin.occurrence(material.wanted).is_none()
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
pub(super) fn line_with(
    material: Material<'_>,
    device: &DeviceId,
    catalogue: &Catalogue,
) -> Option<Line> {
    let device = catalogue.get(device)?;
    minimal_pair(material, &[device], usize::MAX, catalogue).map(|(_, twin)| twin.line)
}

/// The line with the expansion's chords put wherever they touch the device and change few
/// of its chords.
fn replaced(material: Material<'_>, expansion: &Expansion, most: usize) -> Vec<(usize, Line)> {
    let line = &material.progression.line;
    let Some(found) = material.progression.occurrence(material.wanted) else {
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
                let kept = ChordInContext::of(line, slot, material.progression.key.mode())
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

//! What the change from one chord to the next costs, by how its voices move.

use super::motion::{Matched, Perfect, consecutive};
use super::palette::Palette;
use super::palette::Tendency;
use super::tendency::{Pull, inflections, pull};
use super::voicing::Candidate;

/// Costs are in quarters of a semitone of motion, so that all are whole numbers.
const STEP: i32 = 4;
const UNRESOLVED_ALTERED: i32 = 90;
const LOST_INFLECTION: i32 = 90;
/// One fault weighs more than a whole line of smooth motion.
pub(super) const FAULT: i32 = 1 << 15;
const OUTER_CONSECUTIVE: i32 = 5 * FAULT;
pub(super) const UNRESOLVED: i32 = 3 * FAULT;
const TOO_WIDE: i32 = FAULT;
/// The widest leap of an upper voice that is no fault, in semitones: a fifth.
const WIDEST_LEAP: i32 = 7;

/// What a change of chord asks of the voices.
pub(super) struct Change {
    bass: (i32, i32),
    /// The pull on each ingredient of the first chord.
    pulls: Vec<Option<Pull>>,
    /// Inflections that the bass does not carry.
    inflections: Vec<(usize, i32)>,
}

impl Change {
    pub(super) fn new((from, bass): (&Palette, i32), (to, next_bass): (&Palette, i32)) -> Self {
        let in_bass = |index: &usize| from.sounding(bass) == Some(*index);
        Self {
            bass: (bass, next_bass),
            pulls: from
                .ingredients
                .iter()
                .map(|note| pull(from, note, to))
                .collect(),
            inflections: inflections(from, to)
                .into_iter()
                .filter(|(index, step)| !(in_bass(index) && next_bass - bass == *step))
                .collect(),
        }
    }

    pub(super) fn cost(&self, from: &Candidate, to: &Candidate) -> i32 {
        let mut cost = 0;
        let mut inflected = 0u32;
        let mut together = self.bass.0 != self.bass.1;
        let rises = self.bass.1 > self.bass.0;
        let (before, after) = (from.midi(), to.midi());
        let mut led = 0u32;
        for (one, other) in Matched::new(before, after).pairs() {
            led |= 1 << one;
            let step = i32::from(after[other] - before[one]);
            let note = usize::from(from.notes()[one]);
            cost += STEP * step.abs() + leap(step);
            if let Some(pull) = self.pulls[note]
                && !pull.is_met_by(step)
            {
                cost += match pull.tendency {
                    Tendency::LeadingTone | Tendency::Seventh => UNRESOLVED,
                    Tendency::Altered => UNRESOLVED_ALTERED,
                };
            }
            for (bit, inflection) in self.inflections.iter().enumerate() {
                inflected |= u32::from(*inflection == (note, step)) << bit;
            }
            together &= step != 0 && (step > 0) == rises;
        }
        // A voice that ends may be taken up by another.
        for one in (0..before.len()).filter(|one| led & 1 << one == 0) {
            let pull = self.pulls[usize::from(from.notes()[one])];
            let is_met = |pull: Pull| {
                let mut steps = after.iter().map(|next| i32::from(next - before[one]));
                steps.any(|step| pull.is_met_by(step))
            };
            if pull.is_some_and(|pull| pull.tendency != Tendency::Altered && !is_met(pull)) {
                cost += UNRESOLVED;
            }
        }
        cost += LOST_INFLECTION * (self.inflections.len() as i32 - inflected.count_ones() as i32);
        // Every voice in one direction sounds like a block pushed along.
        cost += if together { 10 } else { 0 };
        cost + self.outer(before, after) + self.inner(before, after)
    }

    fn outer(&self, before: &[i8], after: &[i8]) -> i32 {
        let top = (
            i32::from(before[before.len() - 1]),
            i32::from(after[after.len() - 1]),
        );
        let step = top.1 - top.0;
        let mut cost = step.abs() + leap(step);
        if consecutive(self.bass, top).is_some() {
            cost += OUTER_CONSECUTIVE;
        }
        let similar = step != 0 && (step > 0) == (self.bass.1 > self.bass.0);
        let perfect = matches!((top.1 - self.bass.1).rem_euclid(12), 0 | 7);
        if similar && step.abs() > 2 && self.bass.0 != self.bass.1 && perfect {
            cost += 20;
        }
        cost
    }

    /// Consecutive perfects where at least one voice is an inner one.
    fn inner(&self, before: &[i8], after: &[i8]) -> i32 {
        if before.len() != after.len() {
            return 0;
        }
        let voice = |index: usize| (i32::from(before[index]), i32::from(after[index]));
        let top = before.len() - 1;
        let mut cost = 0;
        for upper in 0..=top {
            if upper != top {
                cost += weight(consecutive(self.bass, voice(upper)));
            }
            for lower in 0..upper {
                cost += weight(consecutive(voice(lower), voice(upper)));
            }
        }
        cost
    }
}

fn weight(perfect: Option<Perfect>) -> i32 {
    match perfect {
        Some(Perfect::Octave) => 36,
        Some(Perfect::Fifth) => 6,
        None => 0,
    }
}

/// What a move costs beyond its size: more than a step, a third, a fifth.
fn leap(step: i32) -> i32 {
    let beyond = |size: i32| (step.abs() - size).max(0);
    let too_wide = if step.abs() > WIDEST_LEAP {
        TOO_WIDE
    } else {
        0
    };
    2 * beyond(2) + 6 * beyond(4) + too_wide
}

//! Voice leading: the way through the candidates of each chord that costs least as a whole.

use super::chance::Chance;
use super::manner::Manner;
use super::motion::{Matched, Perfect, consecutive};
use super::palette::Palette;
use super::tendency::{Pull, Tendency, inflections, pull};
use super::voicing::{Candidate, candidates};

/// Costs are in quarters of a semitone of motion, so that all are whole numbers.
const STEP: i32 = 4;
const UNRESOLVED_ALTERED: i32 = 90;
const LOST_INFLECTION: i32 = 90;
/// One fault weighs more than a whole line of smooth motion.
const FAULT: i32 = 1 << 15;
const OUTER_CONSECUTIVE: i32 = 5 * FAULT;
const UNRESOLVED: i32 = 3 * FAULT;
/// A chord in more or fewer voices than the others stands out by its density alone.
const UNEVEN: i32 = FAULT;
const TOO_WIDE: i32 = FAULT;
/// The widest leap of an upper voice that is no fault, in semitones: a fifth.
const WIDEST_LEAP: i32 = 7;

/// Where the top voice may be seated: F4 to G#5, beyond what it can reach, so that whole
/// lines lie high. From chord to chord it sways about its seat, or the chord that is held
/// longest beneath it would say how wide the next one lies.
const LOWEST_SEAT: i32 = 65;
const SEATS: u16 = 16;
const SWAY: i32 = 6;
/// Seats that are tried before a voice is added.
const TRIES: usize = 5;

/// The best upper voices over a bass line.
///
/// In as few voices as the manner has, and in one more only where no seat lets them say a
/// chord or lead it cleanly: a number drawn by chance would tell which chords are not
/// there, because a diminished seventh has no note to double for a fourth.
pub(super) fn lead(palettes: &[Palette], bass: &[i32], manner: Manner, chance: &mut Chance) -> Way {
    let voices = manner.voices();
    let mut best: Option<Way> = None;
    for _ in 0..TRIES {
        // Where the top voice sits is free, so it is drawn, widely enough that register and
        // spread say little of the chords.
        let seat = LOWEST_SEAT + chance.below(SEATS);
        let few = way(palettes, bass, voices, seat, manner, chance);
        if few.faults() == 0 {
            return few;
        }
        if best
            .as_ref()
            .is_none_or(|best| few.faults() < best.faults())
        {
            best = Some(few);
        }
    }
    // What is still left open may be resolved from one of the other seats.
    for seat in LOWEST_SEAT..LOWEST_SEAT + i32::from(SEATS) {
        if !best.as_ref().is_some_and(Way::leaves_open) {
            break;
        }
        let few = way(palettes, bass, voices, seat, manner, chance);
        if best
            .as_ref()
            .is_none_or(|best| few.faults() < best.faults())
        {
            best = Some(few);
        }
    }
    if let Some(few) = best.take_if(|best| best.faults() == 0) {
        return few;
    }
    let mut seat = LOWEST_SEAT + chance.below(SEATS);
    let mut more = way(palettes, bass, voices + 1, seat, manner, chance);
    // What few voices leave open may be resolved by more of them, and by fewer.
    for other in [voices + 1, voices - 1] {
        for _ in 0..SEATS {
            let least = best
                .as_ref()
                .map_or(i32::MAX, Way::faults)
                .min(more.faults());
            if least < UNRESOLVED / FAULT {
                break;
            }
            seat = LOWEST_SEAT + (seat + 1 - LOWEST_SEAT) % i32::from(SEATS);
            let tried = way(palettes, bass, other, seat, manner, chance);
            if tried.faults() < more.faults() {
                more = tried;
            }
        }
    }
    match best {
        Some(few) if few.faults() <= more.faults() => few,
        Some(_) | None => more,
    }
}

/// A way through the whole progression.
pub(super) struct Way {
    /// One a chord.
    pub(super) candidates: Vec<Candidate>,
    cost: i32,
}

impl Way {
    /// The weight of the faults that are left.
    pub(super) fn faults(&self) -> i32 {
        self.cost / FAULT
    }

    /// Whether a fault is left that is as bad as a leading tone or a seventh left open.
    pub(super) fn leaves_open(&self) -> bool {
        self.faults() >= UNRESOLVED / FAULT
    }
}

fn way(
    palettes: &[Palette],
    bass: &[i32],
    voices: usize,
    seat: i32,
    manner: Manner,
    chance: &mut Chance,
) -> Way {
    let mut layers: Vec<Layer> = Vec::new();
    for (index, palette) in palettes.iter().enumerate() {
        let sway = chance.below(2 * SWAY as u16 + 1) - SWAY;
        let taken = candidates(palette, bass[index], voices, seat + sway, manner);
        let mut layer = Layer::new(taken);
        for candidate in &mut layer.candidates {
            candidate.cost += chance.below(4);
            if candidate.count() != voices {
                candidate.cost += UNEVEN;
            }
        }
        match layers.last() {
            None => layer.open(seat),
            Some(before) => {
                let change = Change::new(
                    (&palettes[index - 1], bass[index - 1]),
                    (palette, bass[index]),
                );
                layer.reach(before, &change);
            }
        }
        layers.push(layer);
    }
    trace(&layers)
}

/// The candidates of one chord, each with the least total that reaches it.
struct Layer {
    candidates: Vec<Candidate>,
    totals: Vec<i32>,
    /// Index of the candidate before it on that way.
    came_from: Vec<usize>,
    /// Indices by ascending total.
    order: Vec<usize>,
}

impl Layer {
    fn new(candidates: Vec<Candidate>) -> Self {
        Self {
            candidates,
            totals: Vec::new(),
            came_from: Vec::new(),
            order: Vec::new(),
        }
    }

    fn open(&mut self, top: i32) {
        self.totals = self
            .candidates
            .iter()
            .map(|candidate| {
                let highest = candidate.midi().last().map_or(0, |midi| i32::from(*midi));
                candidate.cost + 3 * (highest - top).abs()
            })
            .collect();
        self.came_from = vec![0; self.totals.len()];
        self.rank();
    }

    fn reach(&mut self, before: &Self, change: &Change) {
        for candidate in &self.candidates {
            let mut best = (i32::MAX, 0);
            for from in &before.order {
                let total = before.totals[*from];
                // No cost is negative: nothing after this can be better.
                if total >= best.0 {
                    break;
                }
                let way = total + change.cost(&before.candidates[*from], candidate);
                if way < best.0 {
                    best = (way, *from);
                }
            }
            self.totals.push(best.0 + candidate.cost);
            self.came_from.push(best.1);
        }
        self.rank();
    }

    fn rank(&mut self) {
        self.order = (0..self.totals.len()).collect();
        self.order.sort_by_key(|index| self.totals[*index]);
    }
}

/// Back along the best way.
fn trace(layers: &[Layer]) -> Way {
    let mut candidates = Vec::with_capacity(layers.len());
    let Some(last) = layers.last() else {
        return Way {
            candidates,
            cost: 0,
        };
    };
    let mut at = last.order[0];
    let cost = last.totals[at];
    for layer in layers.iter().rev() {
        candidates.push(layer.candidates[at]);
        at = layer.came_from[at];
    }
    candidates.reverse();
    Way { candidates, cost }
}

/// What a change of chord asks of the voices.
struct Change {
    bass: (i32, i32),
    /// The pull on each ingredient of the first chord.
    pulls: Vec<Option<Pull>>,
    /// Inflections that the bass does not carry.
    inflections: Vec<(usize, i32)>,
}

impl Change {
    fn new((from, bass): (&Palette, i32), (to, next_bass): (&Palette, i32)) -> Self {
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

    fn cost(&self, from: &Candidate, to: &Candidate) -> i32 {
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

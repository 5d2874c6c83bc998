//! Voice leading: the way through the candidates of each chord that costs least as a whole.

use super::chance::Chance;
use super::change::{Change, FAULT, UNRESOLVED};
use super::manner::Manner;
use super::palette::Palette;
use super::voicing::{Candidate, candidates};

/// A chord in more or fewer voices than the others stands out by its density alone.
const UNEVEN: i32 = FAULT;

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
pub(super) fn lead(
    palettes: &[Palette],
    bass: &[i32],
    manner: Manner,
    chance: &mut Chance,
) -> Path {
    let voices = manner.voices();
    let mut search = Search {
        palettes,
        bass,
        manner,
        chance,
        best: None,
    };
    for _ in 0..TRIES {
        if search.faults() > 0 {
            let seat = search.seat();
            search.attempt(voices, seat);
        }
    }
    // What is still left open may be resolved from one of the other seats, by more voices,
    // and by fewer.
    search.close(voices, 0);
    if search.faults() > 0 {
        let seat = search.seat();
        search.attempt(voices + 1, seat);
        search.close(voices + 1, seat + 1);
        search.close(voices - 1, seat + 1);
    }
    search.best.expect("something was tried")
}

/// Ways are tried until one has no fault that matters; the first of the best is kept.
struct Search<'s> {
    palettes: &'s [Palette],
    bass: &'s [i32],
    manner: Manner,
    chance: &'s mut Chance,
    best: Option<Path>,
}

impl Search<'_> {
    /// Where the top voice sits is free, so it is drawn, widely enough that register and
    /// spread say little of the chords.
    fn seat(&mut self) -> i32 {
        self.chance.below(SEATS)
    }

    fn faults(&self) -> i32 {
        self.best.as_ref().map_or(i32::MAX, Path::faults)
    }

    fn attempt(&mut self, voices: usize, seat: i32) {
        let seat = LOWEST_SEAT + seat % i32::from(SEATS);
        let (palettes, bass) = (self.palettes, self.bass);
        let way = way(palettes, bass, voices, seat, self.manner, self.chance);
        if way.faults() < self.faults() {
            self.best = Some(way);
        }
    }

    /// Tries the seats in turn until nothing is left open.
    fn close(&mut self, voices: usize, first: i32) {
        for seat in first..first + i32::from(SEATS) {
            if self.best.as_ref().is_some_and(Path::leaves_open) {
                self.attempt(voices, seat);
            }
        }
    }
}

/// A way through the whole progression.
pub(super) struct Path {
    /// One a chord.
    pub(super) candidates: Vec<Candidate>,
    cost: i32,
}

impl Path {
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
) -> Path {
    let mut columns: Vec<TrellisColumn> = Vec::new();
    for (index, palette) in palettes.iter().enumerate() {
        let sway = chance.below(2 * SWAY as u16 + 1) - SWAY;
        let taken = candidates(palette, bass[index], voices, seat + sway, manner);
        let mut column = TrellisColumn::new(taken);
        for candidate in &mut column.candidates {
            candidate.cost += chance.below(4);
            if candidate.count() != voices {
                candidate.cost += UNEVEN;
            }
        }
        match columns.last() {
            None => column.open(seat),
            Some(before) => {
                let change = Change::new(
                    (&palettes[index - 1], bass[index - 1]),
                    (palette, bass[index]),
                );
                column.reach(before, &change);
            }
        }
        columns.push(column);
    }
    trace(&columns)
}

/// The candidates of one chord, each with the least total that reaches it.
struct TrellisColumn {
    candidates: Vec<Candidate>,
    totals: Vec<i32>,
    /// Index of the candidate before it on that way.
    came_from: Vec<usize>,
    /// Indices by ascending total.
    order: Vec<usize>,
}

impl TrellisColumn {
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
fn trace(columns: &[TrellisColumn]) -> Path {
    let mut candidates = Vec::with_capacity(columns.len());
    let Some(last) = columns.last() else {
        return Path {
            candidates,
            cost: 0,
        };
    };
    let mut at = last.order[0];
    let cost = last.totals[at];
    for column in columns.iter().rev() {
        candidates.push(column.candidates[at]);
        at = column.came_from[at];
    }
    candidates.reverse();
    Path { candidates, cost }
}

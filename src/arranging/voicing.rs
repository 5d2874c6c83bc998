//! One chord in pitches, and all the good ways to take it.

use super::manner::Manner;
use super::palette::Palette;
use super::register::{TOP, UPPER, WIDEST_GAP, is_clear};
use crate::theory::{Pitch, PitchClass};

/// A chord as it sounds: a bass and the upper voices from the lowest to the highest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Voicing {
    /// The lowest note.
    pub bass: Pitch,
    /// The notes above the bass, lowest first.
    pub upper: Vec<Pitch>,
}

impl Voicing {
    /// All notes from the lowest.
    pub fn pitches(&self) -> impl Iterator<Item = Pitch> + '_ {
        std::iter::once(self.bass).chain(self.upper.iter().copied())
    }

    /// The highest note.
    #[must_use]
    pub fn top(&self) -> Pitch {
        self.upper.last().copied().unwrap_or(self.bass)
    }
}

/// The most upper voices a chord can ask for: every sound once.
pub(super) const MOST_VOICES: usize = 12;

/// Upper voices by MIDI number, the lowest first, with the ingredient each has.
#[derive(Clone, Copy, Debug)]
pub(super) struct Candidate {
    midi: [i8; MOST_VOICES],
    notes: [u8; MOST_VOICES],
    count: u8,
    pub(super) cost: i32,
}

impl Candidate {
    pub(super) const EMPTY: Self = Self {
        midi: [0; MOST_VOICES],
        notes: [0; MOST_VOICES],
        count: 0,
        cost: 0,
    };

    pub(super) fn count(&self) -> usize {
        usize::from(self.count)
    }

    pub(super) fn midi(&self) -> &[i8] {
        &self.midi[..self.count()]
    }

    pub(super) fn notes(&self) -> &[u8] {
        &self.notes[..self.count()]
    }

    pub(super) fn push(&mut self, midi: i32, note: usize) {
        self.midi[self.count()] = midi as i8;
        self.notes[self.count()] = note as u8;
        self.count += 1;
    }

    pub(super) fn pitches(&self, palette: &Palette) -> Vec<Pitch> {
        self.midi()
            .iter()
            .zip(self.notes())
            .map(|(midi, note)| spelled(palette.ingredients[usize::from(*note)].class, *midi))
            .collect()
    }
}

fn spelled(class: PitchClass, midi: i8) -> Pitch {
    Pitch::at_or_above(class, i32::from(midi))
}

/// What each semitone costs by which the top voice lies more than a whole tone from its seat:
/// so much that the member on top is mostly the one nearest to the seat, wherever that is
/// drawn. Were it the one that moves least, some chords would mostly lie wide and others
/// narrow, and could be told by that. Dearer still, tonics were no longer held in plagal
/// cadences, nor seventh and third passed on from ii to V.
const SEAT: i32 = 10;

/// The best candidates are enough: the costlier ones never win a whole progression.
const KEPT: usize = 40;

/// The voicings of a chord over a bass in `voices` upper voices, or as near to that
/// number as the chord allows, the top voice preferably at `seat`; never none.
pub(super) fn candidates(
    palette: &Palette,
    bass: i32,
    voices: usize,
    seat: i32,
    manner: Manner,
) -> Vec<Candidate> {
    let need = palette.need().max(1);
    let search = |count| Search::new(palette, bass, count, seat).run();
    let counts = (need..=voices.max(need)).rev();
    let taken = counts.clone().map(search).map(|mut found| {
        found.retain(|candidate| manner.can_take(bass, candidate.midi()));
        found
    });
    // A chord of many tensions may be beyond any hand; it sounds in full all the same.
    let mut found = taken
        .chain(counts.map(search))
        .find(|found| !found.is_empty())
        .expect("each sound lies once within an octave of the upper register");
    found.sort_by_key(|candidate| candidate.cost);
    found.truncate(KEPT);
    found
}

struct Search<'a> {
    palette: &'a Palette,
    bass: i32,
    count: usize,
    seat: i32,
    /// Where a voice may stand, ascending, with the ingredient that sounds there.
    places: Vec<(i32, usize)>,
    taken: [usize; MOST_VOICES],
    found: Vec<Candidate>,
}

impl<'a> Search<'a> {
    fn new(palette: &'a Palette, bass: i32, count: usize, seat: i32) -> Self {
        let places = ((*UPPER.start()).max(bass + 1)..=TOP)
            .filter_map(|midi| palette.sounding(midi).map(|note| (midi, note)))
            .filter(|(_, note)| palette.ingredients[*note].most > 0)
            .collect();
        Self {
            palette,
            bass,
            count,
            seat,
            places,
            taken: [0; MOST_VOICES],
            found: Vec::new(),
        }
    }

    fn run(mut self) -> Vec<Candidate> {
        self.extend(Candidate::EMPTY, 0, self.palette.need());
        self.found
    }

    /// Adds one voice above `so_far` in every way; `missing` required notes are open.
    fn extend(&mut self, so_far: Candidate, from: usize, missing: usize) {
        let open = self.count - so_far.count();
        if missing > open {
            return;
        }
        if open == 0 {
            let cost = self.cost(&so_far);
            self.found.push(Candidate { cost, ..so_far });
            return;
        }
        let below = so_far.midi().last().map(|midi| i32::from(*midi));
        for place in from..self.places.len() {
            let (midi, note) = self.places[place];
            if below.is_some_and(|below| midi - below > WIDEST_GAP) {
                break;
            }
            if open > 1 && midi > *UPPER.end() {
                break;
            }
            if !is_clear(below.unwrap_or(self.bass), midi) {
                continue;
            }
            let ingredient = &self.palette.ingredients[note];
            if self.taken[note] == ingredient.most {
                continue;
            }
            let fills = usize::from(ingredient.required && self.taken[note] == 0);
            self.taken[note] += 1;
            let mut longer = so_far;
            longer.push(midi, note);
            self.extend(longer, place + 1, missing - fills);
            self.taken[note] -= 1;
        }
    }

    /// What a voicing costs by itself, in quarters of a semitone of motion.
    fn cost(&self, candidate: &Candidate) -> i32 {
        let midi = candidate.midi();
        let (lowest, top) = (i32::from(midi[0]), i32::from(midi[midi.len() - 1]));
        let mut cost = SEAT * ((top - self.seat).abs() - 2).max(0) + 4 * (top - UPPER.end()).max(0);
        cost += 2 * (lowest - self.bass - 19).max(0);
        for (index, pair) in midi.windows(2).enumerate() {
            let at_top = index + 2 == midi.len();
            cost += match pair[1] - pair[0] {
                1 if at_top => 30,
                1 => 10,
                2 => 2,
                gap => 3 * (i32::from(gap) - 7).max(0),
            };
        }
        for (ingredient, taken) in self.palette.ingredients.iter().zip(self.taken) {
            let in_bass = ingredient.chroma() == self.palette.bass.chromatic();
            let sounding = taken + usize::from(in_bass);
            if sounding == 0 {
                cost += ingredient.omission;
            }
            // A second doubling weighs more than the first.
            let doublings = sounding.saturating_sub(1) as i32;
            cost += doublings * ingredient.doubling + 8 * (doublings - 1).max(0);
        }
        cost
    }
}

//! The board: cells in time, some with chords fixed, the rest filled by paths of the key.

use rand::Rng;

use super::bridge::bridge;
use super::chord::Chord;
use super::company::Offered;
use super::favour;
use super::phrasing::Phrasing;
use super::rhythm::Cell;
use super::vocabulary::Vocabulary;

pub(super) struct Board<'a> {
    pub(super) vocabulary: &'static Vocabulary,
    pub(super) cells: &'a [Cell],
    places: Vec<Option<Chord>>,
}

impl<'a> Board<'a> {
    pub(super) fn new(vocabulary: &'static Vocabulary, cells: &'a [Cell]) -> Self {
        Self {
            vocabulary,
            cells,
            places: vec![None; cells.len()],
        }
    }

    /// Whether a cell has no chord yet and takes none from an earlier one.
    pub(super) fn is_free(&self, at: usize) -> bool {
        self.places[at].is_none() && self.cells[at].copy_of.is_none()
    }

    pub(super) fn set(&mut self, at: usize, chord: Chord) {
        self.places[at] = Some(chord);
    }

    /// Fixes a chord in a cell if it goes with what is fixed beside it; tells whether.
    pub(super) fn set_if_it_joins(&mut self, at: usize, chord: Chord) -> bool {
        let after = at + 1;
        let joins = self.joins(at.checked_sub(1), Some(&chord))
            && (after == self.cells.len() || self.joins_after(Some(&chord), after));
        if joins {
            self.set(at, chord);
        }
        joins
    }

    /// The chord that a cell has or will take from an earlier one, as far as it is known.
    pub(super) fn planned(&self, at: usize) -> Option<&Chord> {
        let source = self.cells[at].copy_of.unwrap_or(at);
        self.places[source].as_ref()
    }

    /// Plants chords from a cell on, or nothing at all if one of them does not fit. A
    /// chord fits where a like one already stands.
    pub(super) fn plant(&mut self, start: usize, chords: &[Chord]) -> bool {
        let end = start + chords.len();
        let fits = end <= self.cells.len()
            && chords.iter().zip(start..).all(|(chord, at)| {
                self.cells[at].copy_of.is_none()
                    && self.places[at]
                        .as_ref()
                        .is_none_or(|there| there.is_like(chord) && !there.exact && !chord.exact)
            });
        let joins = fits
            && self.joins(start.checked_sub(1), chords.first())
            && (end == self.cells.len() || self.joins_after(chords.last(), end));
        if joins {
            for (chord, at) in chords.iter().zip(start..) {
                self.places[at].get_or_insert_with(|| chord.clone());
            }
        }
        joins
    }

    fn joins(&self, before: Option<usize>, chord: Option<&Chord>) -> bool {
        match (before.and_then(|at| self.planned(at)), chord) {
            (Some(before), Some(chord)) => self.vocabulary.weight(before, chord) > 0.0,
            (None, _) | (_, None) => true,
        }
    }

    fn joins_after(&self, chord: Option<&Chord>, after: usize) -> bool {
        match (chord, self.planned(after)) {
            (Some(chord), Some(after)) => self.vocabulary.weight(chord, after) > 0.0,
            (None, _) | (_, None) => true,
        }
    }

    /// Fills the free cells; nothing if there is no path.
    pub(super) fn fill(mut self, offered: &Offered, random: &mut impl Rng) -> Option<Vec<Chord>> {
        let mut at = 0;
        while at < self.cells.len() {
            if self.places[at].is_some() {
                at += 1;
                continue;
            }
            if let Some(source) = self.cells[at].copy_of {
                self.places[at] = self.places[source].clone();
                at += 1;
                continue;
            }
            let end = (at..self.cells.len())
                .find(|cell| !self.is_free(*cell))
                .unwrap_or(self.cells.len());
            let from = at
                .checked_sub(1)
                .and_then(|before| self.places[before].as_ref());
            let to = (end < self.cells.len())
                .then(|| self.planned(end))
                .flatten();
            let favour = |place: usize, chord: &Chord| {
                let cell = self.cells[at + place];
                if offered.phrasing == Phrasing::Tune {
                    return offered.share(chord) * favour::place(&cell, chord);
                }
                let is_last_but_one = at + place + 2 == self.cells.len();
                match () {
                    // A line closes from a root in the bass.
                    () if is_last_but_one && chord.inverted => 0.0,
                    // Home is reached on the bar.
                    () if chord.is_home() && !cell.on_bar => 0.35,
                    () => 1.0,
                }
            };
            let path = bridge(from, to, end - at, self.vocabulary, favour, random)?;
            for (place, filler) in path.into_iter().enumerate() {
                self.places[at + place] = Some(self.vocabulary.fillers[filler].clone());
            }
            at = end;
        }
        self.places.into_iter().collect()
    }
}

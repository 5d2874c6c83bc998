//! A device spelled out: a run of chords to be planted.

use std::ops::Range;

use super::chord::Chord;
use super::motion;
use super::vocabulary::Vocabulary;
use crate::devices::{Device, Expansion, Kind, Wanted};
use crate::harmony::common::Common;
use crate::theory::{Degree, Numeral};

/// A way to plant a device: which of its expansions, and where the first chord stands.
#[derive(Clone, Copy)]
pub(super) struct Planting<'a> {
    pub(super) expansion: &'a Expansion,
    pub(super) start: usize,
}

impl Planting<'_> {
    pub(super) fn range(&self) -> Range<usize> {
        self.start..self.start + self.expansion.len()
    }

    /// The chords that are planted, context and own.
    pub(super) fn chords(&self, vocabulary: &Vocabulary) -> Vec<Chord> {
        let expansion = self.expansion;
        expansion
            .chords()
            .map(|wanted| {
                let mut numeral = wanted.numeral.clone();
                if wanted.root_position {
                    numeral.bass = None;
                }
                vocabulary.chord(numeral, wanted.exact)
            })
            .collect()
    }
}

/// Every way to plant a device so that one of its own chords stands in cell `focus` of a
/// line of `cells`. The weights make each run of own chords as likely as any other,
/// however many contexts it is written with, and prefer the chords that tell the device
/// from its company.
pub(super) fn around<'a>(
    device: &'a Device,
    vocabulary: &Vocabulary,
    common: &Common,
    focus: usize,
    room: Room,
) -> Vec<(Planting<'a>, f64)> {
    let expansions: Vec<&Expansion> = device.expansions_in(vocabulary.mode).collect();
    let mut found = Vec::new();
    for expansion in &expansions {
        let alike = expansions
            .iter()
            .filter(|other| same_own(expansion, other))
            .count();
        for (offset, share) in common.shares(&device.id, expansion).into_iter().enumerate() {
            let Some(start) = focus.checked_sub(offset + expansion.before.len()) else {
                continue;
            };
            let planting = Planting { expansion, start };
            if room.takes(&planting) {
                let weight = practice(expansion, vocabulary) * share / alike as f64;
                found.push((planting, weight));
            }
        }
    }
    found
}

/// How much more or less often than its like an expansion is met: the ii of an applied
/// dominant is half-diminished or minor by what the dominant leads to. Shares of the
/// half-diminished counted in the Jazz Harmony Treebank (Harasim et al. 2020).
fn practice(expansion: &Expansion, vocabulary: &Vocabulary) -> f64 {
    if leaps_from_sharp_four(expansion) || is_abrupt(expansion, vocabulary) {
        return 0.0;
    }
    let kind = |at: usize| Kind::of(expansion.own[at].numeral.quality());
    if expansion.own.len() != 2 || kind(1) != Kind::Dominant {
        return 1.0;
    }
    let target = expansion.own[1].numeral.target.as_ref();
    let half_diminished = match target.map(|target| target.root()) {
        Some(root) if root == Degree::new(6, 0) => 0.74,
        Some(root) if root == Degree::new(3, 0) => 0.51,
        Some(root) if root == Degree::new(2, 0) => 0.24,
        Some(_) | None => return 1.0,
    };
    match kind(0) {
        Kind::HalfDiminished => 2.0 * half_diminished,
        Kind::Minor => 2.0 * (1.0 - half_diminished),
        Kind::Major | Kind::Dominant | Kind::Diminished | Kind::Augmented | Kind::Suspended => 1.0,
    }
}

/// Whether a diminished seventh on sharp 4 goes to the tonic in root position: charts write
/// it so, but a bass that has come to sharp 4 goes on to 5 (common practice).
pub(super) fn leaps_from_sharp_four(expansion: &Expansion) -> bool {
    let chords: Vec<&Numeral> = expansion.chords().map(|wanted| &wanted.numeral).collect();
    chords.windows(2).any(|pair| {
        pair[0].root() == Degree::new(4, 1)
            && Kind::of(pair[0].quality()) == Kind::Diminished
            && pair[1].root() == Degree::TONIC
            && pair[1].bass.is_none()
    })
}

fn is_abrupt(expansion: &Expansion, vocabulary: &Vocabulary) -> bool {
    let chord = |wanted: &Wanted| vocabulary.chord(wanted.numeral.clone(), false);
    let chords: Vec<Chord> = expansion.chords().map(chord).collect();
    chords
        .windows(2)
        .any(|pair| motion::is_abrupt(&pair[0], &pair[1]))
}

fn same_own(one: &Expansion, other: &Expansion) -> bool {
    let roots = |expansion: &Expansion| -> Vec<(Degree, bool)> {
        let root = |numeral: &Numeral| numeral.root();
        let own = expansion.own.iter();
        own.map(|w| (root(&w.numeral), w.numeral.quality().seventh.is_some()))
            .collect()
    };
    one.own.len() == other.own.len() && roots(one) == roots(other)
}

/// The ends of the line that a planting must respect.
#[derive(Clone, Copy)]
pub(super) struct Room {
    pub(super) cells: usize,
    /// Whether the line may open away from the tonic.
    pub(super) opens_off: bool,
}

impl Room {
    /// Whether the expansion may stand there as far as its anchors and the ends of the
    /// line go.
    pub(super) fn takes(self, planting: &Planting<'_>) -> bool {
        let expansion = planting.expansion;
        let end = planting.range().end;
        let first = expansion.chords().next().map(|wanted| &wanted.numeral);
        let last = expansion.chords().last().map(|wanted| &wanted.numeral);
        // I7 on its way to IV is no tonic to begin with.
        let opens = || {
            first.is_some_and(|numeral| {
                numeral.root() == Degree::TONIC
                    && numeral.bass.is_none()
                    && numeral.target.is_none()
            })
        };
        let closes = || {
            last.is_some_and(|numeral| {
                numeral.root() == Degree::TONIC
                    && numeral.bass.is_none_or(|bass| bass == Degree::TONIC)
                    && numeral.quality().seventh.is_none()
            })
        };
        end <= self.cells
            && (!expansion.at_start || planting.start == 0)
            && (!expansion.at_end || end == self.cells)
            && (planting.start > 0 || expansion.at_start || self.opens_off || opens())
            && (end < self.cells || expansion.at_end || closes())
    }
}

//! Lines that are rejected: the same two chords to and fro, home at every turn, a
//! suspension that falls on the weaker beat.

use super::chord::Chord;
use super::rhythm::Cell;
use super::vocabulary::Vocabulary;
use crate::theory::Degree;

/// Whether chords repeat themselves too much. Phrases that begin like earlier ones may.
pub(super) fn repeats_itself(chords: &[Chord], cells: &[Cell]) -> bool {
    let new = |at: usize| cells[at].copy_of.is_none();
    let to_and_fro = (0..chords.len().saturating_sub(3)).any(|at| {
        new(at + 3)
            && chords[at].is_like(&chords[at + 2])
            && chords[at + 1].is_like(&chords[at + 3])
    });
    let thrice = (0..chords.len().saturating_sub(4)).any(|at| {
        new(at + 4)
            && chords[at].is_like(&chords[at + 2])
            && chords[at + 2].is_like(&chords[at + 4])
    });
    let pairs = chords
        .windows(2)
        .filter(|pair| pair[0].step == 7 && pair[1].is_home())
        .count();
    let standing_still = chords.windows(2).any(|pair| pair[0].is_like(&pair[1]));
    to_and_fro || thrice || standing_still || pairs > 1 + chords.len() / 6
}

/// Whether a phrase that begins like an earlier one goes on where its last shared chord
/// does not lead, or breaks off in the middle of a device: after a chord outside the key or
/// over another bass, which leads where it led before.
pub(super) fn has_bad_seam(chords: &[Chord], cells: &[Cell], vocabulary: &Vocabulary) -> bool {
    (1..chords.len()).any(|at| {
        let is_seam = cells[at - 1].copy_of.is_some() && cells[at].copy_of.is_none();
        let goes_on = cells[at - 1].copy_of.is_none_or(|model| {
            let last = &chords[model];
            let leads = last.filler.is_none() || last.inverted;
            !leads || chords[model + 1].is_like(&chords[at])
        });
        is_seam && (!goes_on || vocabulary.weight(&chords[at - 1], &chords[at]) <= 0.0)
    })
}

/// Whether a tonic over its fifth stands in the middle of a bar and its dominant on the
/// next downbeat: the cadential six-four falls on the stronger beat (common practice).
pub(super) fn has_weak_six_four(chords: &[Chord], cells: &[Cell]) -> bool {
    (1..chords.len()).any(|at| {
        let (six_four, dominant) = (&chords[at - 1], &chords[at]);
        six_four.is_home()
            && six_four.numeral.sounding_bass() == Degree::new(5, 0)
            && dominant.step == 7
            && !cells[at - 1].on_bar
            && cells[at].on_bar
    })
}

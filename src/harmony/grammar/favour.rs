//! What is favoured where: chords by how strong their place is.

use super::chord::Chord;
use super::rhythm::Cell;
use crate::devices::Kind;

/// How well a chord stands in a cell. Chords at rest come on the first bar of a pair, what
/// pulls comes before it: the strong place belongs to what is arrived at (common practice).
pub(super) fn place(cell: &Cell, chord: &Chord) -> f64 {
    let [strong, weak, inside] = match chord.shape.kind {
        Kind::Major if chord.step == 0 => [1.0, 0.25, 0.02],
        Kind::Major => [1.0, 0.6, 0.25],
        Kind::Minor => [1.0, 0.9, 0.25],
        Kind::HalfDiminished => [0.8, 0.9, 0.3],
        Kind::Dominant | Kind::Suspended | Kind::Augmented if chord.step == 7 => [0.12, 0.7, 1.0],
        Kind::Dominant | Kind::Suspended | Kind::Augmented => [0.35, 0.7, 1.0],
        Kind::Diminished => [0.2, 0.7, 1.0],
    };
    match () {
        () if cell.strong => strong,
        () if cell.on_bar => weak,
        () => inside,
    }
}

//! A chord on the board, with what is needed to weigh the steps to and from it.

use crate::devices::{Kind, Shape};
use crate::theory::Numeral;

/// A chord on the board.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Chord {
    pub(super) numeral: Numeral,
    pub(super) shape: Shape,
    /// Chromatic steps of its root above the tonic.
    pub(super) step: i32,
    /// Whether its bass is not its root.
    pub(super) inverted: bool,
    /// Its place among the fillers, if it is one of them.
    pub(super) filler: Option<usize>,
    /// Whether it must stay as it is written.
    pub(super) exact: bool,
}

impl Chord {
    /// Whether both are the same chord over the same bass, whatever their colour; where
    /// the colour is what matters, whether that is the same too.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        if self.exact || other.exact {
            return self.numeral == other.numeral;
        }
        self.shape.kind == other.shape.kind
            && self.step == other.step
            && self.numeral.sounding_bass() == other.numeral.sounding_bass()
    }

    /// Whether the chord is the tonic of its mode, at rest.
    pub(super) fn is_home(&self) -> bool {
        self.step == 0 && matches!(self.shape.kind, Kind::Major | Kind::Minor)
    }
}

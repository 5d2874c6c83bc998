//! A chord reduced to what patterns compare: its root and its kind.

use crate::theory::{Degree, Fifth, Numeral, Quality, Seventh, Third};

/// Chord qualities as harmony tells them apart, colour and extensions aside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// A major triad, major seventh or added sixth.
    Major,
    /// A major third with a minor seventh, suspended or altered in any way.
    Dominant,
    /// A minor triad, with whatever seventh.
    Minor,
    /// A half-diminished seventh chord.
    HalfDiminished,
    /// A diminished triad or seventh chord.
    Diminished,
    /// An augmented triad, with whatever seventh.
    Augmented,
    /// A suspension without a seventh.
    Suspended,
}

impl Kind {
    /// How many kinds there are.
    pub(super) const COUNT: usize = 7;

    /// The kind of a chord of this quality.
    #[must_use]
    pub fn of(quality: Quality) -> Self {
        let minor_seventh = quality.seventh == Some(Seventh::Minor);
        match (quality.third, quality.fifth) {
            (Third::Minor, Fifth::Diminished) if minor_seventh => Self::HalfDiminished,
            (Third::Minor, Fifth::Diminished) => Self::Diminished,
            (Third::Minor, Fifth::Perfect | Fifth::Augmented) => Self::Minor,
            (Third::Major | Third::Fourth | Third::Second, _) if minor_seventh => Self::Dominant,
            (Third::Major, Fifth::Augmented) => Self::Augmented,
            (Third::Major, Fifth::Perfect | Fifth::Diminished) | (Third::Omitted, _) => Self::Major,
            (Third::Fourth | Third::Second, _) => Self::Suspended,
        }
    }
}

/// Root and kind of a chord: as much of it as decides what it can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Shape {
    /// The degree of the root.
    pub root: Degree,
    /// What kind of chord stands on it.
    pub kind: Kind,
}

impl Shape {
    /// The shape of this numeral.
    #[must_use]
    pub fn of(numeral: &Numeral) -> Self {
        Self {
            root: numeral.root(),
            kind: Kind::of(numeral.quality()),
        }
    }

    /// Whether both sound alike, however their roots are spelled.
    #[must_use]
    pub fn sounds_as(self, other: Self) -> bool {
        self.kind == other.kind
            && self.root.interval().chromatic() == other.root.interval().chromatic()
    }

    /// The shape that decides the function: a bare major triad on 2, 3, 5, 6 or 7 does
    /// what the dominant seventh there does.
    #[must_use]
    pub fn acting(numeral: &Numeral) -> Self {
        let shape = Self::of(numeral);
        let bare_triad = numeral.quality().plain() == Quality::MAJOR;
        let dominant = matches!(shape.root.number(), 2 | 3 | 5 | 6 | 7)
            && shape.root.alteration() == 0
            && shape.kind == Kind::Major
            && bare_triad;
        if dominant || is_applied_dominant(numeral) {
            Self {
                kind: Kind::Dominant,
                ..shape
            }
        } else {
            shape
        }
    }
}

/// Whether the numeral is written as the dominant of a target, as in `V/IV`.
fn is_applied_dominant(numeral: &Numeral) -> bool {
    use crate::theory::Head;
    match (&numeral.head, &numeral.target) {
        (Head::Roman { root, quality }, Some(_)) => {
            *root == Degree::new(5, 0) && quality.plain() == Quality::MAJOR
        }
        (Head::Substitute { .. } | Head::AugmentedSixth(_) | Head::Neapolitan, _)
        | (Head::Roman { .. }, None) => false,
    }
}

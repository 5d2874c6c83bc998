//! One chord of a pattern, and which chords of a line are it.

use std::fmt;

use crate::devices::shape::Shape;
use crate::theory::{Degree, IntervalClass, Notation, Numeral};

/// One chord that a pattern asks for.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Wanted {
    /// The chord to write where the pattern is spelled out.
    pub numeral: Numeral,
    /// Whether the quality must be the written one, extensions included.
    pub exact: bool,
    /// Whether the root must be in the bass, written as that degree: `I/1`.
    pub root_position: bool,
}

impl Wanted {
    /// Whether a chord of a line is what is wanted.
    #[must_use]
    pub fn accepts(&self, chord: &Numeral) -> bool {
        Shape::acting(&self.numeral).sounds_as(Shape::acting(chord))
            && (!self.exact || self.numeral.quality() == chord.quality())
            && self
                .bass()
                .is_none_or(|bass| sounds_as(bass, bass_of(chord)))
    }

    /// The degree that must be in the bass, if it matters.
    pub(in crate::devices) fn bass(&self) -> Option<Degree> {
        if self.root_position {
            Some(self.numeral.root())
        } else {
            self.numeral.bass
        }
    }
}

fn sounds_as(one: Degree, other: Degree) -> bool {
    one.interval().chromatic() == other.interval().chromatic()
}

/// The degree in the bass. `i/3` means the minor third, as the chord has no other.
pub(in crate::devices) fn bass_of(chord: &Numeral) -> Degree {
    let bass = chord.sounding_bass();
    let lowered = bass.up(IntervalClass::from_fifths(-7));
    let own = chord.degrees();
    let means_lowered = chord.bass.is_some()
        && bass.alteration() == 0
        && matches!(bass.number(), 3 | 6 | 7)
        && !own.contains(&bass)
        && own.contains(&lowered);
    if means_lowered { lowered } else { bass }
}

impl fmt::Display for Wanted {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", if self.exact { "=" } else { "" }, self.numeral)?;
        if self.root_position {
            write!(f, "/{}", self.numeral.root().written(Notation::Text))?;
        }
        Ok(())
    }
}

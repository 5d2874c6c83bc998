//! What a chord is built of, apart from its root.

mod parse;
mod print;

pub(crate) use parse::{Figure, Figures, Suffix};
pub(crate) use print::LONGEST_SUFFIX;

use super::pitch::IntervalClass;

/// The third of a chord, or what stands in its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Third {
    /// A major third.
    Major,
    /// A minor third.
    Minor,
    /// Suspended fourth.
    Fourth,
    /// Suspended second.
    Second,
    /// None, as in a power chord.
    Omitted,
}

/// The fifth of a chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fifth {
    /// A perfect fifth.
    Perfect,
    /// A diminished fifth.
    Diminished,
    /// An augmented fifth.
    Augmented,
}

/// The seventh of a chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Seventh {
    /// A major seventh.
    Major,
    /// A minor seventh.
    Minor,
    /// A diminished seventh.
    Diminished,
}

/// Notes above the seventh, in the order they are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Tension {
    /// A minor ninth.
    FlatNine,
    /// A major ninth.
    Nine,
    /// An augmented ninth.
    SharpNine,
    /// A perfect eleventh.
    Eleven,
    /// An augmented eleventh.
    SharpEleven,
    /// A minor thirteenth.
    FlatThirteen,
    /// A major thirteenth.
    Thirteen,
}

impl Tension {
    /// All tensions, lowest first.
    pub const ALL: [Self; 7] = [
        Self::FlatNine,
        Self::Nine,
        Self::SharpNine,
        Self::Eleven,
        Self::SharpEleven,
        Self::FlatThirteen,
        Self::Thirteen,
    ];

    /// The interval above the root, within the octave.
    #[must_use]
    pub const fn interval(self) -> IntervalClass {
        match self {
            Self::FlatNine => IntervalClass::MINOR_SECOND,
            Self::Nine => IntervalClass::MAJOR_SECOND,
            Self::SharpNine => IntervalClass::AUGMENTED_SECOND,
            Self::Eleven => IntervalClass::PERFECT_FOURTH,
            Self::SharpEleven => IntervalClass::AUGMENTED_FOURTH,
            Self::FlatThirteen => IntervalClass::MINOR_SIXTH,
            Self::Thirteen => IntervalClass::MAJOR_SIXTH,
        }
    }
}

/// A set of tensions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub struct Tensions(u8);

impl Tensions {
    /// No tension.
    pub const NONE: Self = Self(0);

    /// These with one more.
    #[must_use]
    pub const fn with(self, tension: Tension) -> Self {
        Self(self.0 | 1 << tension as u8)
    }

    /// These without this one.
    #[must_use]
    pub const fn without(self, tension: Tension) -> Self {
        Self(self.0 & !(1 << tension as u8))
    }

    /// Whether this one is among them.
    #[must_use]
    pub const fn has(self, tension: Tension) -> bool {
        self.0 & 1 << tension as u8 != 0
    }

    /// Those that there are, lowest first.
    pub fn iter(self) -> impl Iterator<Item = Tension> {
        Tension::ALL
            .into_iter()
            .filter(move |tension| self.has(*tension))
    }
}

/// The quality of a chord: its third, fifth, sixth, seventh and tensions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Quality {
    /// The third, or what stands for it.
    pub third: Third,
    /// The fifth.
    pub fifth: Fifth,
    /// Whether a major sixth is added.
    pub added_sixth: bool,
    /// The seventh, if there is one.
    pub seventh: Option<Seventh>,
    /// The notes above the seventh.
    pub tensions: Tensions,
}

/// What a note is within its chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Member {
    /// The root.
    Root,
    /// The third, or what stands for it.
    Third,
    /// The fifth.
    Fifth,
    /// The added sixth.
    Sixth,
    /// The seventh.
    Seventh,
    /// A note above the seventh.
    Tension,
}

impl Quality {
    /// A major triad.
    pub const MAJOR: Self = Self {
        third: Third::Major,
        fifth: Fifth::Perfect,
        added_sixth: false,
        seventh: None,
        tensions: Tensions::NONE,
    };
    /// A minor triad.
    pub const MINOR: Self = Self {
        third: Third::Minor,
        ..Self::MAJOR
    };
    /// A dominant seventh chord.
    pub const DOMINANT_SEVENTH: Self = Self {
        seventh: Some(Seventh::Minor),
        ..Self::MAJOR
    };
    /// A major seventh chord.
    pub const MAJOR_SEVENTH: Self = Self {
        seventh: Some(Seventh::Major),
        ..Self::MAJOR
    };
    /// A minor seventh chord.
    pub const MINOR_SEVENTH: Self = Self {
        seventh: Some(Seventh::Minor),
        ..Self::MINOR
    };
    /// A major triad with a major sixth.
    pub const MAJOR_SIXTH: Self = Self {
        added_sixth: true,
        ..Self::MAJOR
    };
    /// A minor triad with a major sixth.
    pub const MINOR_SIXTH: Self = Self {
        added_sixth: true,
        ..Self::MINOR
    };
    /// A diminished triad.
    pub const DIMINISHED: Self = Self {
        fifth: Fifth::Diminished,
        ..Self::MINOR
    };
    /// A half-diminished seventh chord.
    pub const HALF_DIMINISHED: Self = Self {
        seventh: Some(Seventh::Minor),
        ..Self::DIMINISHED
    };
    /// A diminished seventh chord.
    pub const DIMINISHED_SEVENTH: Self = Self {
        seventh: Some(Seventh::Diminished),
        ..Self::DIMINISHED
    };
    /// An augmented triad.
    pub const AUGMENTED: Self = Self {
        fifth: Fifth::Augmented,
        ..Self::MAJOR
    };

    /// The chord's notes as intervals above the root, root first, each with what it is.
    #[must_use]
    pub fn members(self) -> Vec<(Member, IntervalClass)> {
        let mut members = vec![(Member::Root, IntervalClass::UNISON)];
        match self.third {
            Third::Major => members.push((Member::Third, IntervalClass::MAJOR_THIRD)),
            Third::Minor => members.push((Member::Third, IntervalClass::MINOR_THIRD)),
            Third::Fourth => members.push((Member::Third, IntervalClass::PERFECT_FOURTH)),
            Third::Second => members.push((Member::Third, IntervalClass::MAJOR_SECOND)),
            Third::Omitted => {}
        }
        members.push((
            Member::Fifth,
            match self.fifth {
                Fifth::Perfect => IntervalClass::PERFECT_FIFTH,
                Fifth::Diminished => IntervalClass::DIMINISHED_FIFTH,
                Fifth::Augmented => IntervalClass::AUGMENTED_FIFTH,
            },
        ));
        if self.added_sixth {
            members.push((Member::Sixth, IntervalClass::MAJOR_SIXTH));
        }
        if let Some(seventh) = self.seventh {
            members.push((
                Member::Seventh,
                match seventh {
                    Seventh::Major => IntervalClass::MAJOR_SEVENTH,
                    Seventh::Minor => IntervalClass::MINOR_SEVENTH,
                    Seventh::Diminished => IntervalClass::DIMINISHED_SEVENTH,
                },
            ));
        }
        members.extend(
            self.tensions
                .iter()
                .map(|t| (Member::Tension, t.interval())),
        );
        members
    }

    /// Whether the chord has a major third and a minor seventh, suspended or not: the
    /// sound of a dominant.
    #[must_use]
    pub fn is_dominant_seventh(self) -> bool {
        matches!(self.third, Third::Major | Third::Fourth) && self.seventh == Some(Seventh::Minor)
    }

    /// The triad or seventh chord under any tensions.
    #[must_use]
    pub fn plain(self) -> Self {
        Self {
            tensions: Tensions::NONE,
            ..self
        }
    }
}

#[cfg(test)]
mod tests {
    use super::parse::Figures;
    use super::*;
    use crate::theory::notation::Notation;

    fn every_quality() -> impl Iterator<Item = Quality> {
        let thirds = [
            Third::Major,
            Third::Minor,
            Third::Fourth,
            Third::Second,
            Third::Omitted,
        ];
        let fifths = [Fifth::Perfect, Fifth::Diminished, Fifth::Augmented];
        let sevenths = [
            None,
            Some(Seventh::Major),
            Some(Seventh::Minor),
            Some(Seventh::Diminished),
        ];
        let mut all = Vec::new();
        for third in thirds {
            for fifth in fifths {
                for seventh in sevenths {
                    for added_sixth in [false, true] {
                        for bits in 0..128 {
                            let tensions = Tensions(bits);
                            all.push(Quality {
                                third,
                                fifth,
                                added_sixth,
                                seventh,
                                tensions,
                            });
                        }
                    }
                }
            }
        }
        // A diminished seventh belongs to the fully diminished chord alone.
        all.into_iter().filter(|quality| {
            quality.seventh != Some(Seventh::Diminished)
                || (quality.third, quality.fifth) == (Third::Minor, Fifth::Diminished)
        })
    }

    #[test]
    fn no_sign_is_longer_than_the_readers_allow() {
        let lengths = every_quality().flat_map(|quality| {
            [Notation::Text, Notation::Screen, Notation::Ascii].map(|notation| {
                let symbol = quality.symbol_suffix(notation).len();
                symbol.max(quality.numeral_suffix(notation).len())
            })
        });
        let longest = lengths.max().unwrap_or_default();
        assert!(longest <= LONGEST_SUFFIX, "{longest} bytes");
        assert!(longest > LONGEST_SUFFIX / 2, "the limit could be far lower");
    }

    #[test]
    fn every_quality_parses_as_it_prints() {
        for quality in every_quality() {
            for notation in [Notation::Text, Notation::Screen, Notation::Ascii] {
                let third = if quality.is_lower_case() {
                    Third::Minor
                } else {
                    Third::Major
                };
                let text = quality.numeral_suffix(notation);
                let (read, length) = Suffix::read(&text, third, Figures::Read)
                    .unwrap_or_else(|fault| panic!("`{text}`: {fault:?}"));
                assert_eq!(
                    (read.quality, length),
                    (quality, text.len()),
                    "numeral `{text}`"
                );
                let text = quality.symbol_suffix(notation);
                let (read, length) = Suffix::read(&text, Third::Major, Figures::None)
                    .unwrap_or_else(|fault| panic!("`{text}`: {fault:?}"));
                assert_eq!(
                    (read.quality, length),
                    (quality, text.len()),
                    "symbol `{text}`"
                );
            }
        }
    }
}

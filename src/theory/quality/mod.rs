//! What a chord is built of, apart from its root.

mod parse;
mod print;

pub(crate) use parse::{Figure, Figures, Suffix};
pub(crate) use print::LONGEST_SUFFIX;

use super::pitch::IntervalClass;

/// The third of a chord, or what stands in its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Third {
    Major,
    Minor,
    /// Suspended fourth.
    Fourth,
    /// Suspended second.
    Second,
    Omitted,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fifth {
    Perfect,
    Diminished,
    Augmented,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Seventh {
    Major,
    Minor,
    Diminished,
}

/// Notes above the seventh, in the order they are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Tension {
    FlatNine,
    Nine,
    SharpNine,
    Eleven,
    SharpEleven,
    FlatThirteen,
    Thirteen,
}

impl Tension {
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
    pub const NONE: Self = Self(0);

    #[must_use]
    pub const fn with(self, tension: Tension) -> Self {
        Self(self.0 | 1 << tension as u8)
    }

    #[must_use]
    pub const fn without(self, tension: Tension) -> Self {
        Self(self.0 & !(1 << tension as u8))
    }

    #[must_use]
    pub const fn has(self, tension: Tension) -> bool {
        self.0 & 1 << tension as u8 != 0
    }

    pub fn iter(self) -> impl Iterator<Item = Tension> {
        Tension::ALL
            .into_iter()
            .filter(move |tension| self.has(*tension))
    }
}

/// The quality of a chord: its third, fifth, sixth, seventh and tensions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Quality {
    pub third: Third,
    pub fifth: Fifth,
    pub added_sixth: bool,
    pub seventh: Option<Seventh>,
    pub tensions: Tensions,
}

/// What a note is within its chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Member {
    Root,
    Third,
    Fifth,
    Sixth,
    Seventh,
    Tension,
}

impl Quality {
    pub const MAJOR: Self = Self {
        third: Third::Major,
        fifth: Fifth::Perfect,
        added_sixth: false,
        seventh: None,
        tensions: Tensions::NONE,
    };
    pub const MINOR: Self = Self {
        third: Third::Minor,
        ..Self::MAJOR
    };
    pub const DOMINANT_SEVENTH: Self = Self {
        seventh: Some(Seventh::Minor),
        ..Self::MAJOR
    };
    pub const MAJOR_SEVENTH: Self = Self {
        seventh: Some(Seventh::Major),
        ..Self::MAJOR
    };
    pub const MINOR_SEVENTH: Self = Self {
        seventh: Some(Seventh::Minor),
        ..Self::MINOR
    };
    pub const MAJOR_SIXTH: Self = Self {
        added_sixth: true,
        ..Self::MAJOR
    };
    pub const MINOR_SIXTH: Self = Self {
        added_sixth: true,
        ..Self::MINOR
    };
    pub const DIMINISHED: Self = Self {
        fifth: Fifth::Diminished,
        ..Self::MINOR
    };
    pub const HALF_DIMINISHED: Self = Self {
        seventh: Some(Seventh::Minor),
        ..Self::DIMINISHED
    };
    pub const DIMINISHED_SEVENTH: Self = Self {
        seventh: Some(Seventh::Diminished),
        ..Self::DIMINISHED
    };
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

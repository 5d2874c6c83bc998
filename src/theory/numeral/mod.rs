//! Numerals: how a chord is written relative to a key, readable without one.

mod error;
mod parse;

use std::fmt;

pub use error::{Expected, NumeralError};
pub use parse::BareSix;
pub(crate) use parse::{LONGEST, read_roman};

use super::degree::Degree;
use super::notation::Notation;
use super::pitch::IntervalClass;
use super::quality::{Quality, Tension};

/// What stands before any slash of a numeral.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Head {
    /// A Roman numeral on a degree, counted from the major scale.
    Roman { root: Degree, quality: Quality },
    /// The tritone substitute of a dominant: a dominant seventh a semitone above its target.
    Substitute { quality: Quality },
    /// An augmented-sixth chord, the flat sixth degree in its bass.
    AugmentedSixth(AugmentedSixth),
    /// The Neapolitan sixth: the major triad on the flat second, its third in the bass.
    Neapolitan,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AugmentedSixth {
    Italian,
    French,
    German,
}

impl AugmentedSixth {
    /// The chord's notes as degrees, the bass first.
    #[must_use]
    pub fn degrees(self) -> Vec<Degree> {
        let flat_six = Degree::new(6, -1);
        let sharp_four = Degree::new(4, 1);
        match self {
            Self::Italian => vec![flat_six, Degree::TONIC, sharp_four],
            Self::French => vec![flat_six, Degree::TONIC, Degree::new(2, 0), sharp_four],
            Self::German => vec![flat_six, Degree::TONIC, Degree::new(3, -1), sharp_four],
        }
    }
}

/// A numeral, such as `V7/ii`, `♯iv°7`, `iv`, `I/5` or `Iadd6`.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Numeral {
    pub head: Head,
    /// The chord that the head is applied to: `ii` in `V7/ii`. Targets nest.
    pub target: Option<Box<Numeral>>,
    /// The degree in the bass, counted in the key that the whole numeral is written in.
    pub bass: Option<Degree>,
}

/// How many targets may follow each other: `V/V/V/V/V/V` has five.
pub const DEEPEST_TARGET: usize = 6;

impl Numeral {
    /// A Roman numeral in root position.
    #[must_use]
    pub fn roman(root: Degree, quality: Quality) -> Self {
        Self {
            head: Head::Roman { root, quality },
            target: None,
            bass: None,
        }
    }

    /// The degree of the key that the target stands on; the tonic if there is none.
    #[must_use]
    pub fn local_tonic(&self) -> Degree {
        self.target
            .as_ref()
            .map_or(Degree::TONIC, |target| target.root())
    }

    /// The degree of the key that the chord's root is. An augmented sixth is taken from
    /// its bass, as the dominant seventh that sounds like it.
    #[must_use]
    pub fn root(&self) -> Degree {
        let within = match self.head {
            Head::Roman { root, .. } => root,
            Head::Substitute { .. } | Head::Neapolitan => Degree::at(IntervalClass::MINOR_SECOND),
            Head::AugmentedSixth(_) => Degree::new(6, -1),
        };
        self.local_tonic().up(within.interval())
    }

    /// The chord's notes as degrees of the key, root first.
    #[must_use]
    pub fn degrees(&self) -> Vec<Degree> {
        if let Head::AugmentedSixth(kind) = self.head {
            let tonic = self.local_tonic();
            return kind
                .degrees()
                .into_iter()
                .map(|d| tonic.up(d.interval()))
                .collect();
        }
        let root = self.root();
        self.quality()
            .members()
            .into_iter()
            .map(|(_, interval)| root.up(interval))
            .collect()
    }

    /// The quality by which the chord sounds; an augmented sixth by the dominant
    /// seventh that shares its notes.
    #[must_use]
    pub fn quality(&self) -> Quality {
        match self.head {
            Head::Roman { quality, .. } | Head::Substitute { quality } => quality,
            Head::AugmentedSixth(_) => Quality::DOMINANT_SEVENTH,
            Head::Neapolitan => Quality::MAJOR,
        }
    }

    /// The degree that sounds in the bass.
    #[must_use]
    pub fn sounding_bass(&self) -> Degree {
        self.bass.unwrap_or_else(|| match self.head {
            Head::Neapolitan => self.root().up(IntervalClass::MAJOR_THIRD),
            Head::Roman { .. } | Head::Substitute { .. } | Head::AugmentedSixth(_) => self.root(),
        })
    }

    /// The same chord with its root (or its own bass) at the bottom.
    #[must_use]
    pub fn without_bass(&self) -> Self {
        Self {
            bass: None,
            ..self.clone()
        }
    }

    /// The same chord less its tensions.
    #[must_use]
    pub fn without_tensions(&self) -> Self {
        let head = match self.head {
            Head::Roman { root, quality } => Head::Roman {
                root,
                quality: quality.plain(),
            },
            Head::Substitute { quality } => Head::Substitute {
                quality: quality.plain(),
            },
            Head::AugmentedSixth(_) | Head::Neapolitan => self.head,
        };
        Self {
            head,
            ..self.clone()
        }
    }

    /// Whether the chord carries a tension.
    #[must_use]
    pub fn has_tension(&self, tension: Tension) -> bool {
        self.quality().tensions.has(tension)
    }

    /// The numeral in a notation.
    #[must_use]
    pub fn written(&self, notation: Notation) -> String {
        let mut text = match self.head {
            Head::Roman { root, quality } => {
                let upper = ROMAN[usize::from(root.number()) - 1];
                let roman = if quality.is_lower_case() {
                    upper.to_lowercase()
                } else {
                    upper.to_owned()
                };
                notation.accidentals(root.alteration()) + &roman + &quality.numeral_suffix(notation)
            }
            Head::Substitute { quality } => format!("subV{}", quality.numeral_suffix(notation)),
            Head::AugmentedSixth(AugmentedSixth::Italian) => "It6".to_owned(),
            Head::AugmentedSixth(AugmentedSixth::French) => "Fr6".to_owned(),
            Head::AugmentedSixth(AugmentedSixth::German) => "Ger6".to_owned(),
            Head::Neapolitan => "N6".to_owned(),
        };
        if let Some(target) = &self.target {
            text += "/";
            text += &target.written(notation);
        }
        if let Some(bass) = self.bass {
            text += "/";
            text += &bass.written(notation);
        }
        text
    }
}

/// The numerals of the seven degrees.
const ROMAN: [&str; 7] = ["I", "II", "III", "IV", "V", "VI", "VII"];

impl fmt::Display for Numeral {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written(Notation::Text))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::theory::quality::{Fifth, Seventh, Third};

    fn read(text: &str) -> Numeral {
        text.parse().unwrap_or_else(|error| panic!("{error}"))
    }

    #[test]
    fn forgiving_input_means_one_numeral() {
        // Common practice: the writings that books and players use for the same chord.
        for (written, plain) in [
            ("V/ii", "V/ii"),
            ("V7/ii", "V7/ii"),
            ("VI7", "VI7"),
            ("#iv°7", "#ivo7"),
            ("#ivo7", "#ivo7"),
            ("#ivdim7", "#ivo7"),
            ("♯iv°7", "#ivo7"),
            ("ii/o7", "iiø7"),
            ("iim7b5", "iiø7"),
            ("iiø", "iiø7"),
            ("ii7b5", "iiø7"),
            ("IVm", "iv"),
            ("iv6", "ivadd6"),
            ("Imaj7", "Imaj7"),
            ("IΔ", "Imaj7"),
            ("IM7", "Imaj7"),
            ("bVII7", "bVII7"),
            ("♭VII7", "bVII7"),
            ("I/5", "I/5"),
            ("I64", "I/5"),
            ("V65", "V7/7"),
            ("V42", "V7/4"),
            ("V43", "V7/2"),
            ("V65/ii", "V7/ii/#1"),
            ("V7/ii65", "V7/ii7"),
            ("V42b9", "V7b9/4"),
            ("Ger65", "Ger6"),
            ("Fr43", "Fr6"),
            ("It", "It6"),
            ("N", "N6"),
            ("subV/V", "subV7/V"),
            ("V7/V/ii", "V7/V/ii"),
            ("V7sus", "V7sus4"),
            ("I69", "Iadd6add9"),
            ("i(maj7)", "imaj7"),
            ("V7(b9)", "V7b9"),
            ("V+", "V+"),
            ("viio7/V", "viio7/V"),
        ] {
            assert_eq!(read(written).to_string(), plain, "{written}");
        }
    }

    #[test]
    fn a_bare_six_is_read_as_the_setting_says() {
        let figured = Numeral::read("I6", BareSix::FirstInversion).map(|n| n.to_string());
        assert_eq!(figured, Ok("I/3".to_owned()));
        assert_eq!(read("I6").to_string(), "Iadd6");
    }

    #[test]
    fn unreadable_numerals_name_the_place_and_guess() {
        for (text, at, near) in [
            ("IIX", 2..3, Some("II")),
            ("", 0..0, None),
            ("V7/", 3..3, Some("V7")),
            ("V7/x", 3..4, Some("V7")),
            ("I/5/5", 3..5, Some("I/5")),
            ("xV7", 0..3, Some("V7")),
            ("V77", 2..3, Some("V7")),
            ("subVm", 4..5, Some("subV7")),
        ] {
            let error = text.parse::<Numeral>().expect_err(text);
            assert_eq!((error.at, error.near.as_deref()), (at, near), "{text}");
        }
        let deep = "V/".repeat(20) + "V";
        assert!(
            deep.parse::<Numeral>()
                .is_err_and(|e| e.expected == Expected::FewerTargets)
        );
    }

    #[test]
    fn applied_roots_are_counted_in_the_home_key() {
        for (text, root) in [
            ("V7/ii", "6"),
            ("V7/V", "2"),
            ("V7/vi", "3"),
            ("V7/IV", "1"),
            ("V7/iii", "7"),
            ("V7/V/ii", "3"),
            ("subV7", "b2"),
            ("subV7/V", "b6"),
            ("viio7/V", "#4"),
            ("#io7", "#1"),
            ("N6", "b2"),
            ("Ger6", "b6"),
            ("V7/bIII", "b7"),
        ] {
            assert_eq!(read(text).root().to_string(), root, "{text}");
        }
        assert_eq!(read("N6").sounding_bass().to_string(), "4");
    }

    fn any_quality() -> impl Strategy<Value = Quality> {
        let third = prop::sample::select(vec![Third::Major, Third::Minor, Third::Fourth]);
        let fifth = prop::sample::select(vec![Fifth::Perfect, Fifth::Diminished, Fifth::Augmented]);
        let seventh = prop::sample::select(vec![None, Some(Seventh::Major), Some(Seventh::Minor)]);
        (third, fifth, any::<bool>(), seventh).prop_map(|(third, fifth, added_sixth, seventh)| {
            Quality {
                third,
                fifth,
                added_sixth,
                seventh,
                ..Quality::MAJOR
            }
        })
    }

    fn any_head() -> impl Strategy<Value = Head> {
        let roman =
            (1u8..=7, -1i16..=1, any_quality()).prop_map(|(number, alteration, quality)| {
                Head::Roman {
                    root: Degree::new(number, alteration),
                    quality,
                }
            });
        prop_oneof![
            8 => roman,
            1 => Just(Head::Substitute { quality: Quality::DOMINANT_SEVENTH }),
            1 => Just(Head::AugmentedSixth(AugmentedSixth::German)),
            1 => Just(Head::Neapolitan),
        ]
    }

    fn any_numeral() -> impl Strategy<Value = Numeral> {
        let bass = prop::option::of((1u8..=7, -1i16..=1).prop_map(|(n, a)| Degree::new(n, a)));
        (prop::collection::vec(any_head(), 1..4), bass).prop_map(|(heads, bass)| {
            let mut heads = heads.into_iter().rev();
            let last = heads.next().expect("at least one head");
            let mut numeral = Numeral {
                head: last,
                target: None,
                bass: None,
            };
            for head in heads {
                numeral = Numeral {
                    head,
                    target: Some(Box::new(numeral)),
                    bass: None,
                };
            }
            Numeral { bass, ..numeral }
        })
    }

    proptest! {
        #[test]
        fn numerals_parse_as_they_print(numeral in any_numeral()) {
            for notation in [Notation::Text, Notation::Screen, Notation::Ascii] {
                let text = numeral.written(notation);
                prop_assert_eq!(text.parse::<Numeral>(), Ok(numeral.clone()), "{}", text);
            }
        }

        #[test]
        fn no_text_breaks_the_reader(text in "[IViv7bo#ø/+°♭maj6dsu ()5-9]{0,12}|.{0,40}") {
            if let Err(error) = text.parse::<Numeral>() {
                prop_assert!(error.text.get(error.at.clone()).is_some());
                prop_assert!(!error.to_string().is_empty());
            }
        }
    }
}

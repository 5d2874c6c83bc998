//! Scale degrees, counted from the major scale in both modes.

use std::fmt;
use std::str::FromStr;

use super::name_error::NameError;
use super::notation::Notation;
use super::pitch::{IntervalClass, read_accidentals};

/// A degree of the key: the interval from the tonic up to it.
///
/// The count is from the major scale whatever the mode, so the sixth of a minor key
/// is written `b6`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Degree(IntervalClass);

/// Places of the major scale on the line of fifths, the tonic at 0.
const MAJOR: [i16; 7] = [0, 2, 4, -1, 1, 3, 5];

impl Degree {
    /// The first degree.
    pub const TONIC: Self = Self(IntervalClass::UNISON);

    /// Degree `number` (1 to 7) of the major scale, raised by `alteration` semitones.
    ///
    /// # Panics
    /// If `number` is outside 1 to 7.
    #[must_use]
    pub const fn new(number: u8, alteration: i16) -> Self {
        assert!(number >= 1 && number <= 7, "scale degrees run from 1 to 7");
        Self(IntervalClass::from_fifths(
            MAJOR[number as usize - 1] + 7 * alteration,
        ))
    }

    /// The degree this interval above the tonic.
    #[must_use]
    pub const fn at(interval: IntervalClass) -> Self {
        Self(interval)
    }

    /// The interval above the tonic.
    #[must_use]
    pub const fn interval(self) -> IntervalClass {
        self.0
    }

    /// 1 to 7.
    #[must_use]
    pub fn number(self) -> u8 {
        self.0.steps() as u8 + 1
    }

    /// Semitones above (or below) the degree of the major scale.
    #[must_use]
    pub fn alteration(self) -> i16 {
        (self.0.fifths() - MAJOR[self.0.steps() as usize]) / 7
    }

    /// The degree an interval above this one.
    #[must_use]
    pub fn up(self, interval: IntervalClass) -> Self {
        Self(IntervalClass::from_fifths(
            self.0.fifths() + interval.fifths(),
        ))
    }

    /// The degree in a notation, such as `♭6`.
    #[must_use]
    pub fn written(self, notation: Notation) -> String {
        format!(
            "{}{}",
            notation.accidentals(self.alteration()),
            self.number()
        )
    }
}

impl fmt::Display for Degree {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written(Notation::Text))
    }
}

impl FromStr for Degree {
    type Err = NameError;

    /// Reads `5`, `b7`, `♯4`.
    fn from_str(text: &str) -> Result<Self, NameError> {
        let (alteration, rest) = read_accidentals(text);
        match rest.parse::<u8>() {
            Ok(number @ 1..=7) if rest.len() == 1 && alteration.abs() <= 2 => {
                Ok(Self::new(number, alteration))
            }
            Ok(_) | Err(_) => Err(NameError::new(
                text,
                "a scale degree",
                "1 to 7 after any `b` or `#`",
            )),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn degrees_print_as_they_parse() {
        for number in 1..=7 {
            for alteration in -2..=2 {
                let degree = Degree::new(number, alteration);
                assert_eq!(degree.to_string().parse(), Ok(degree));
                assert_eq!((degree.number(), degree.alteration()), (number, alteration));
            }
        }
    }

    #[test]
    fn degrees_are_counted_from_the_major_scale() {
        for (text, chromatic) in [
            ("1", 0),
            ("b3", 3),
            ("♯4", 6),
            ("b7", 10),
            ("7", 11),
            ("##1", 2),
        ] {
            let degree: Degree = text.parse().unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(degree.interval().chromatic(), chromatic, "{text}");
        }
        let five = Degree::new(2, 0).up(IntervalClass::PERFECT_FOURTH);
        assert_eq!(five, Degree::new(5, 0));
    }

    #[test]
    fn a_degree_is_not_a_figure() {
        for text in ["0", "8", "55", "b", "", "bbb3", "###3", "b#3", "05", "x"] {
            assert_eq!(
                text.parse::<Degree>(),
                Err(NameError::new(
                    text,
                    "a scale degree",
                    "1 to 7 after any `b` or `#`"
                ))
            );
        }
    }
}

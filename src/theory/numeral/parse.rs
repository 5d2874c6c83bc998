//! Reads numerals in every common writing.

use std::str::FromStr;

use super::{AugmentedSixth, DEEPEST_TARGET, Expected, Head, Numeral, NumeralError, ROMAN};
use crate::theory::degree::Degree;
use crate::theory::pitch::read_accidentals;
use crate::theory::quality::{Figure, Figures, LONGEST_SUFFIX, Member, Quality, Suffix, Third};
use crate::theory::symbol::Symbol;

/// How a bare `6` after a numeral is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum BareSix {
    /// As jazz does: a chord with an added sixth.
    #[default]
    AddedSixth,
    /// As figured bass does: first inversion.
    FirstInversion,
}

impl BareSix {
    /// The reading of the other trade.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::AddedSixth => Self::FirstInversion,
            Self::FirstInversion => Self::AddedSixth,
        }
    }
}

/// A longer text than this is no numeral, whatever it says: every numeral that is printed is
/// shorter, with all its targets, its bass and the slashes between them.
pub(crate) const LONGEST: usize = (DEEPEST_TARGET + 1) * (LONGEST_HEAD + LONGEST_SUFFIX + 1);

/// `subV`, or `VII` with two accidentals of three bytes each.
const LONGEST_HEAD: usize = 9;

/// A near guess is looked for only where the text is not much longer than numerals are:
/// it takes time by the square of the length.
const LONGEST_GUESSED: usize = 48;

impl FromStr for Numeral {
    type Err = NumeralError;

    fn from_str(text: &str) -> Result<Self, NumeralError> {
        Self::read(text, BareSix::AddedSixth)
    }
}

impl Numeral {
    /// Reads a numeral, with a bare six as `six` says.
    ///
    /// # Errors
    /// With the bytes that could not be read, what was expected and a near guess.
    pub fn read(text: &str, six: BareSix) -> Result<Self, NumeralError> {
        if text.len() > LONGEST {
            let end = (0..=LONGEST)
                .rev()
                .find(|at| text.is_char_boundary(*at))
                .unwrap_or(0);
            return Err(NumeralError {
                text: text[..end].to_owned(),
                at: 0..end,
                expected: Expected::Shorter,
                near: None,
            });
        }
        Reader { text, at: 0, six }.numeral(0).map_err(|mut error| {
            if text.parse::<Symbol>().is_ok() {
                error.at = 0..text.len();
                error.expected = Expected::NoSymbol;
            } else if text.len() <= LONGEST_GUESSED {
                error.near = near_guess(text, six);
            }
            error
        })
    }
}

/// A Roman numeral at the beginning of a text: its degree, whether it is in upper case,
/// and its length in bytes.
pub(crate) fn read_roman(text: &str) -> Option<(u8, bool, usize)> {
    [7, 3, 6, 4, 2, 5, 1].into_iter().find_map(|number| {
        let upper = ROMAN[number - 1];
        let lower = upper.to_lowercase();
        let is_upper = text.starts_with(upper);
        (is_upper || text.starts_with(&lower)).then_some((number as u8, is_upper, upper.len()))
    })
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
    six: BareSix,
}

/// Special heads, longer writings first.
const SPECIAL: [(&str, Head); 15] = [
    ("It+6", Head::AugmentedSixth(AugmentedSixth::Italian)),
    ("It6", Head::AugmentedSixth(AugmentedSixth::Italian)),
    ("It", Head::AugmentedSixth(AugmentedSixth::Italian)),
    ("Fr+6", Head::AugmentedSixth(AugmentedSixth::French)),
    ("Fr43", Head::AugmentedSixth(AugmentedSixth::French)),
    ("Fr6", Head::AugmentedSixth(AugmentedSixth::French)),
    ("Fr", Head::AugmentedSixth(AugmentedSixth::French)),
    ("Ger+6", Head::AugmentedSixth(AugmentedSixth::German)),
    ("Ger65", Head::AugmentedSixth(AugmentedSixth::German)),
    ("Ger6", Head::AugmentedSixth(AugmentedSixth::German)),
    ("Ger", Head::AugmentedSixth(AugmentedSixth::German)),
    ("Sw6", Head::AugmentedSixth(AugmentedSixth::Swiss)),
    ("Sw", Head::AugmentedSixth(AugmentedSixth::Swiss)),
    ("N6", Head::Neapolitan),
    ("N", Head::Neapolitan),
];

impl<'a> Reader<'a> {
    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    fn refuse(&self, expected: Expected) -> NumeralError {
        let end = self
            .rest()
            .find('/')
            .filter(|at| *at > 0)
            .map_or(self.text.len(), |n| self.at + n);
        NumeralError {
            text: self.text.to_owned(),
            at: self.at..end,
            expected,
            near: None,
        }
    }

    fn numeral(&mut self, depth: usize) -> Result<Numeral, NumeralError> {
        if depth > DEEPEST_TARGET {
            return Err(self.refuse(Expected::FewerTargets));
        }
        let (head, figure) = self.head()?;
        let mut numeral = Numeral {
            head,
            target: None,
            bass: None,
        };
        if self.rest().starts_with('/') {
            self.at += 1;
            if let Some(bass) = self.bass() {
                numeral.bass = Some(bass);
            } else if self.starts_head() {
                let mut target = self.numeral(depth + 1)?;
                // The bass belongs to the whole numeral, which is written in the home key.
                numeral.bass = target.bass.take();
                numeral.target = Some(Box::new(target));
            } else {
                return Err(self.refuse(Expected::TargetOrBass));
            }
        }
        if !self.rest().is_empty() {
            let expected = if numeral.bass.is_some() {
                Expected::End
            } else {
                Expected::QualityOrEnd
            };
            return Err(self.refuse(expected));
        }
        if let Some(figure) = figure {
            self.apply(figure, &mut numeral, depth > 0)?;
        }
        Ok(numeral)
    }

    /// A bass degree, which reaches to the next slash or the end.
    fn bass(&mut self) -> Option<Degree> {
        let written = self.rest().split('/').next().unwrap_or_default();
        let degree = written.parse().ok()?;
        self.at += written.len();
        Some(degree)
    }

    fn starts_head(&self) -> bool {
        let (_, rest) = read_accidentals(self.rest());
        rest.starts_with(['I', 'V', 'i', 'v', 's', 'S', 'N', 'F', 'G'])
    }

    fn head(&mut self) -> Result<(Head, Option<Figure>), NumeralError> {
        if let Some((written, head)) = SPECIAL
            .iter()
            .find(|(written, _)| self.rest().starts_with(written))
        {
            self.at += written.len();
            return Ok((*head, None));
        }
        if self.rest().starts_with("subV") {
            self.at += "subV".len();
            let suffix = self.at;
            let (mut quality, figure) = self.quality(Third::Major)?;
            if quality.third == Third::Minor {
                self.at = suffix;
                return Err(self.refuse(Expected::QualityOrEnd));
            }
            if quality == Quality::MAJOR {
                quality = Quality::DOMINANT_SEVENTH;
            }
            return Ok((Head::Substitute { quality }, figure));
        }
        let (alteration, rest) = read_accidentals(self.rest());
        if alteration.abs() > 2 {
            return Err(self.refuse(Expected::Roman));
        }
        let (number, upper, length) =
            read_roman(rest).ok_or_else(|| self.refuse(Expected::Roman))?;
        self.at = self.text.len() - rest.len() + length;
        let third = if upper { Third::Major } else { Third::Minor };
        let (quality, figure) = self.quality(third)?;
        Ok((
            Head::Roman {
                root: Degree::new(number, alteration),
                quality,
            },
            figure,
        ))
    }

    fn quality(&mut self, third: Third) -> Result<(Quality, Option<Figure>), NumeralError> {
        match Suffix::read(self.rest(), third, Figures::Read) {
            Ok((suffix, length)) => {
                self.at += length;
                Ok((suffix.quality, suffix.figure))
            }
            Err(fault) => {
                self.at += fault.offset;
                Err(self.refuse(Expected::QualityOrEnd))
            }
        }
    }

    /// Turns a figured-bass number into a bass degree, or into an added sixth. The
    /// inversion of a target does not sound.
    fn apply(
        &self,
        figure: Figure,
        numeral: &mut Numeral,
        is_target: bool,
    ) -> Result<(), NumeralError> {
        let quality = match &mut numeral.head {
            Head::Roman { quality, .. } | Head::Substitute { quality } => quality,
            Head::AugmentedSixth(_) | Head::Neapolitan => return Ok(()),
        };
        let member = match figure {
            Figure::BareSix if self.six == BareSix::AddedSixth => {
                quality.added_sixth = true;
                return Ok(());
            }
            Figure::BareSix | Figure::SixFive => Member::Third,
            Figure::SixFour | Figure::FourThree => Member::Fifth,
            Figure::FourTwo => Member::Seventh,
        };
        if is_target {
            return Ok(());
        }
        if numeral.bass.is_some() {
            return Err(self.refuse(Expected::End));
        }
        let in_bass = quality.members().into_iter().find(|(m, _)| *m == member);
        let (_, interval) = in_bass.ok_or_else(|| self.refuse(Expected::QualityOrEnd))?;
        let bass = numeral.root().up(interval);
        if bass.alteration().abs() > 2 {
            let mut error = self.refuse(Expected::NearerBass);
            error.at = 0..self.text.len();
            return Err(error);
        }
        numeral.bass = Some(bass);
        Ok(())
    }
}

/// The readable numeral that is nearest to what was written: most of it, or all of it
/// with a single sign put right, or its beginning.
fn near_guess(text: &str, six: BareSix) -> Option<String> {
    let reads = |candidate: &str| {
        Reader {
            text: candidate,
            at: 0,
            six,
        }
        .numeral(0)
        .ok()
        .map(|numeral| numeral.to_string())
    };
    let places: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
    let beginnings = || places.iter().rev().map(|at| &text[..*at]);
    let most = beginnings()
        .take(2)
        .filter(|beginning| beginning.len() > 1)
        .find_map(reads);
    let edited = || {
        places.iter().find_map(|at| {
            let after = text[*at..]
                .chars()
                .next()
                .map_or(text.len(), |c| at + c.len_utf8());
            ["", "i", "v", "I", "V", "7", "b", "#"]
                .iter()
                .find_map(|sign| reads(&format!("{}{sign}{}", &text[..*at], &text[after..])))
        })
    };
    most.or_else(edited)
        .or_else(|| beginnings().find_map(reads))
}

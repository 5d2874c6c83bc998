//! The signs of a RomanText numeral, without a mode and so without meaning.

use std::ops::Range;

use super::error::{RomanTextError, RomanTextExpected};
use crate::theory::numeral::{AugmentedSixth, DEEPEST_TARGET, read_roman};
use crate::theory::pitch::read_accidentals;

/// A numeral as it is written, and the bytes that it takes up without its target.
pub(super) struct Written {
    pub(super) head: Head,
    pub(super) sign: Option<Sign>,
    pub(super) figures: Option<Figures>,
    pub(super) brackets: Vec<(Bracket, Range<usize>)>,
    pub(super) target: Option<Box<Written>>,
    pub(super) at: Range<usize>,
}

#[derive(Clone, Copy)]
pub(super) enum Head {
    /// Sharps less flats, the degree, and whether it is in upper case.
    Roman(i16, u8, bool),
    AugmentedSixth(AugmentedSixth),
    Neapolitan,
    /// The cadential six-four.
    Cadential,
}

/// A sign of quality beyond upper and lower case.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Sign {
    Diminished,
    HalfDiminished,
    Augmented,
    /// `d`: a dominant seventh, whatever the scale.
    Dominant,
}

/// How far a chord is stacked in thirds.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Stack {
    Triad,
    Seventh,
    Ninth,
    Eleventh,
    Thirteenth,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) struct Figures {
    pub(super) stack: Stack,
    /// Which note of the stack is in the bass: the root 0, the third 1 …
    pub(super) inversion: usize,
    /// `54`: the fourth in place of the third.
    pub(super) suspended: bool,
}

/// A bracket, with a number counted from the root: `[no3]`, `[add#6]`, `[b5]`.
#[derive(Clone, Copy)]
pub(super) enum Bracket {
    Omitted(u8),
    Added(i16, u8),
    Altered(i16, u8),
}

const LONGEST: usize = 96;

/// Longer writings first.
const HEADS: [(&str, Head); 9] = [
    ("Cad6/4", Head::Cadential),
    ("Cad64", Head::Cadential),
    ("Cad", Head::Cadential),
    ("It", Head::AugmentedSixth(AugmentedSixth::Italian)),
    ("Fr", Head::AugmentedSixth(AugmentedSixth::French)),
    ("Ger", Head::AugmentedSixth(AugmentedSixth::German)),
    ("Gr", Head::AugmentedSixth(AugmentedSixth::German)),
    ("Sw", Head::AugmentedSixth(AugmentedSixth::Swiss)),
    ("N", Head::Neapolitan),
];

const SIGNS: [(&str, Sign); 8] = [
    ("/o", Sign::HalfDiminished),
    ("/°", Sign::HalfDiminished),
    ("ø", Sign::HalfDiminished),
    ("o", Sign::Diminished),
    ("°", Sign::Diminished),
    ("º", Sign::Diminished),
    ("+", Sign::Augmented),
    ("d", Sign::Dominant),
];

/// Reads a whole text.
pub(super) fn read(text: &str) -> Result<Written, RomanTextError> {
    let mut reader = Reader { text, at: 0 };
    if text.len() > LONGEST {
        return Err(reader.refuse(0..0, RomanTextExpected::Shorter));
    }
    let written = reader.numeral(0)?;
    // Some analysts leave a slash behind whose target they never wrote.
    if reader.rest().is_empty() || reader.rest() == "/" {
        Ok(written)
    } else {
        Err(reader.refuse(reader.at..text.len(), RomanTextExpected::FiguresOrTarget))
    }
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Reader<'a> {
    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    fn refuse(&self, at: Range<usize>, expected: RomanTextExpected) -> RomanTextError {
        RomanTextError {
            text: self.text.to_owned(),
            at,
            expected,
        }
    }

    fn numeral(&mut self, depth: usize) -> Result<Written, RomanTextError> {
        let start = self.at;
        if depth > DEEPEST_TARGET {
            return Err(self.refuse(start..self.text.len(), RomanTextExpected::Shorter));
        }
        let head = self.head().ok_or_else(|| {
            let expected = if depth == 0 {
                RomanTextExpected::Roman
            } else {
                RomanTextExpected::Target
            };
            self.refuse(start..self.text.len(), expected)
        })?;
        let takes_sign = matches!(head, Head::Roman(..));
        let before = takes_sign.then(|| self.sign()).flatten();
        let figures = self.figures()?;
        // `III6+` is met for `III+6`.
        let after = || takes_sign.then(|| self.sign()).flatten();
        let sign = before.or_else(after);
        let mut brackets = Vec::new();
        while self.rest().starts_with('[') {
            self.bracket(&mut brackets)?;
        }
        let at = start..self.at;
        let target = match self.rest().strip_prefix('/') {
            Some(rest) if !rest.is_empty() => {
                self.at += 1;
                Some(Box::new(self.numeral(depth + 1)?))
            }
            Some(_) | None => None,
        };
        Ok(Written {
            head,
            sign,
            figures,
            brackets,
            target,
            at,
        })
    }

    fn head(&mut self) -> Option<Head> {
        if let Some((written, head)) = HEADS.iter().find(|(w, _)| self.rest().starts_with(w)) {
            self.at += written.len();
            if matches!(head, Head::AugmentedSixth(_)) && self.rest().starts_with('+') {
                self.at += 1;
            }
            return Some(*head);
        }
        let (alteration, rest) = read_accidentals(self.rest());
        let (number, is_upper, length) = read_roman(rest)?;
        if alteration.abs() > 2 {
            return None;
        }
        self.at = self.text.len() - rest.len() + length;
        Some(Head::Roman(alteration, number, is_upper))
    }

    fn sign(&mut self) -> Option<Sign> {
        let (written, sign) = SIGNS.iter().find(|(w, _)| self.rest().starts_with(w))?;
        self.at += written.len();
        Some(*sign)
    }

    /// Figures with slashes between them or without.
    fn figures(&mut self) -> Result<Option<Figures>, RomanTextError> {
        let start = self.at;
        let mut digits = String::new();
        loop {
            let figure = self.rest().strip_prefix('/').unwrap_or(self.rest());
            let Some(digit) = figure.chars().next().filter(char::is_ascii_digit) else {
                break;
            };
            digits.push(digit);
            self.at = self.text.len() - figure.len() + 1;
        }
        let (stack, inversion) = match digits.as_str() {
            "" => return Ok(None),
            "3" | "5" | "53" | "54" => (Stack::Triad, 0),
            "6" | "63" => (Stack::Triad, 1),
            "64" => (Stack::Triad, 2),
            "7" | "753" => (Stack::Seventh, 0),
            "65" | "653" => (Stack::Seventh, 1),
            "43" | "643" => (Stack::Seventh, 2),
            "2" | "42" | "642" => (Stack::Seventh, 3),
            "9" | "9753" => (Stack::Ninth, 0),
            "11" => (Stack::Eleventh, 0),
            "13" => (Stack::Thirteenth, 0),
            _ => return Err(self.refuse(start..self.at, RomanTextExpected::Figures)),
        };
        Ok(Some(Figures {
            stack,
            inversion,
            suspended: digits == "54",
        }))
    }

    /// One pair of brackets; `[no3no5]` leaves out two notes.
    fn bracket(
        &mut self,
        brackets: &mut Vec<(Bracket, Range<usize>)>,
    ) -> Result<(), RomanTextError> {
        let start = self.at;
        let end = self.rest().find(']').map(|length| start + length + 1);
        let refused = self.refuse(
            start..end.unwrap_or(self.text.len()),
            RomanTextExpected::Bracket,
        );
        let Some(end) = end else {
            return Err(refused);
        };
        let inside = &self.text[start + 1..end - 1];
        let read = if let Some(numbers) = inside.strip_prefix("no") {
            numbers
                .split("no")
                .map(|number| step(number).map(Bracket::Omitted))
                .collect()
        } else if let Some(note) = inside.strip_prefix("add") {
            let (alteration, number) = read_accidentals(note);
            step(number).map(|number| vec![Bracket::Added(alteration, number)])
        } else {
            let (alteration, number) = read_accidentals(inside);
            step(number)
                .filter(|_| alteration != 0)
                .map(|number| vec![Bracket::Altered(alteration, number)])
        };
        let read: Vec<Bracket> = read.ok_or(refused)?;
        brackets.extend(read.into_iter().map(|bracket| (bracket, start..end)));
        self.at = end;
        Ok(())
    }
}

/// A number above the root, 1 to 13.
fn step(number: &str) -> Option<u8> {
    let is_plain = number.bytes().all(|byte| byte.is_ascii_digit());
    let step = number.parse().ok()?;
    (is_plain && (1..=13).contains(&step)).then_some(step)
}

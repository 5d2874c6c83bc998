//! What a written RomanText numeral is in a mode.

use std::ops::Range;

use super::brackets::{Stacked, tension};
use super::error::RomanTextExpected;
use super::syntax::{Bracket, Figures, Head, Sign, Stack, Written};
use crate::theory::degree::Degree;
use crate::theory::key::Mode;
use crate::theory::numeral::{self, AugmentedSixth, Numeral};
use crate::theory::pitch::IntervalClass;
use crate::theory::quality::{Fifth, Member, Quality, Seventh, Third};

/// Bytes of the text that mean no chord, and why.
pub(super) struct Fault {
    pub(super) at: Range<usize>,
    pub(super) expected: RomanTextExpected,
}

/// A whole chord, and its notes that do not sound.
type Meaning = (Numeral, Vec<Member>);

/// The chord that is written.
pub(super) fn chord(written: &Written, mode: Mode) -> Result<Meaning, Fault> {
    let Some(target) = &written.target else {
        return Reading { written, mode }.chord(None);
    };
    // What is said of the target's bass and notes does not sound in the chord.
    let target = chord(target, mode)?.0.without_bass();
    let mode = match target.quality().third {
        Third::Minor => Mode::Minor,
        Third::Major | Third::Fourth | Third::Second | Third::Omitted => Mode::Major,
    };
    Reading { written, mode }.chord(Some(target))
}

/// One numeral in the mode of the key it is counted in.
struct Reading<'a> {
    written: &'a Written,
    mode: Mode,
}

impl Reading<'_> {
    fn fault(&self, expected: RomanTextExpected) -> Fault {
        Fault {
            at: self.written.at.clone(),
            expected,
        }
    }

    fn chord(&self, target: Option<Numeral>) -> Result<Meaning, Fault> {
        let figures = self.written.figures;
        let mut omitted = Vec::new();
        let (head, bass) = match self.written.head {
            Head::AugmentedSixth(kind) => {
                if let Some((_, at)) = self.written.brackets.first() {
                    return Err(bracket_fault(at, RomanTextExpected::NoteOfTheChord));
                }
                let bass = augmented_sixth_bass(kind, figures)
                    .ok_or_else(|| self.fault(RomanTextExpected::Figures))?;
                let flat_six = kind.degrees()[0];
                let bass = (bass != flat_six).then_some(bass);
                (numeral::Head::AugmentedSixth(kind), bass)
            }
            Head::Cadential if figures.is_some() => {
                return Err(self.fault(RomanTextExpected::Figures));
            }
            Head::Roman(..) | Head::Neapolitan | Head::Cadential => {
                let root = self.root();
                let stacked = self.bracketed(root)?;
                let quality = stacked.quality;
                omitted = stacked.omitted;
                let inversion = self.inversion();
                let is_sixth = matches!(self.written.head, Head::Neapolitan) && inversion == 1;
                if is_sixth && quality == Quality::MAJOR {
                    (numeral::Head::Neapolitan, None)
                } else {
                    let bass = (inversion > 0).then(|| bass(root, quality, inversion));
                    (numeral::Head::Roman { root, quality }, bass)
                }
            }
        };
        let mut numeral = Numeral {
            head,
            target: target.map(Box::new),
            bass: None,
        };
        numeral.bass = bass.map(|bass| numeral.local_tonic().up(bass.interval()));
        let written = [Some(self.root()), numeral.bass];
        if written.iter().flatten().any(|d| d.alteration().abs() > 2) {
            return Err(self.fault(RomanTextExpected::FewerAccidentals));
        }
        Ok((numeral, omitted))
    }

    fn bracketed(&self, root: Degree) -> Result<Stacked, Fault> {
        let mut stacked = Stacked {
            quality: self.quality(root)?,
            omitted: Vec::new(),
        };
        for (bracket, at) in &self.written.brackets {
            stacked
                .apply(*bracket, |number| self.step(root, number))
                .ok_or_else(|| bracket_fault(at, RomanTextExpected::NoteOfTheChord))?;
        }
        for (bracket, _) in &self.written.brackets {
            if let Bracket::Added(0, number) = bracket {
                stacked.suspend(*number);
            }
        }
        let Quality {
            third,
            fifth,
            seventh,
            ..
        } = stacked.quality;
        let is_diminished = (third, fifth) == (Third::Minor, Fifth::Diminished);
        if seventh == Some(Seventh::Diminished) && !is_diminished {
            return Err(self.fault(RomanTextExpected::CommonNote));
        }
        Ok(stacked)
    }

    fn inversion(&self) -> usize {
        let written = self.written.figures.map(|figures| figures.inversion);
        match self.written.head {
            Head::Cadential => 2,
            Head::Neapolitan => written.unwrap_or(1),
            Head::Roman(..) | Head::AugmentedSixth(_) => written.unwrap_or(0),
        }
    }

    /// The root, as the quality decides it on six and seven of minor.
    fn root(&self) -> Degree {
        let (alteration, number, is_upper) = match self.written.head {
            Head::Roman(alteration, number, is_upper) => (alteration, number, is_upper),
            Head::Neapolitan => return Degree::new(2, -1),
            Head::Cadential | Head::AugmentedSixth(_) => return Degree::TONIC,
        };
        let stands_raised = match self.written.sign {
            Some(Sign::Diminished | Sign::HalfDiminished) => true,
            Some(Sign::Augmented | Sign::Dominant) => false,
            None => !is_upper,
        };
        let shift = match (self.mode, number) {
            (Mode::Minor, 6 | 7) if alteration == 0 => i16::from(stands_raised),
            // A flat before them only warns that the lowered degree is meant.
            (Mode::Minor, 6 | 7) if alteration < 0 => alteration + 1,
            (Mode::Major | Mode::Minor, _) => alteration,
        };
        let plain = self.scale(number);
        Degree::new(number, plain.alteration() + shift)
    }

    /// A degree of the mode's scale, natural minor; 8 and above go on from the octave.
    fn scale(&self, number: u8) -> Degree {
        let number = (number - 1) % 7 + 1;
        let lowered = self.mode == Mode::Minor && matches!(number, 3 | 6 | 7);
        Degree::new(number, -i16::from(lowered))
    }

    /// The interval from the root up to a step of the scale above the numeral's degree.
    fn step(&self, root: Degree, step: u8) -> IntervalClass {
        let degree = self.scale(root.number() + step - 1);
        IntervalClass::from_fifths(degree.interval().fifths() - root.interval().fifths())
    }

    fn quality(&self, root: Degree) -> Result<Quality, Fault> {
        let sign = self.written.sign;
        let third = match (sign, self.written.head) {
            (Some(Sign::Diminished | Sign::HalfDiminished), _)
            | (None, Head::Roman(_, _, false)) => Third::Minor,
            (None, Head::Cadential) if self.mode == Mode::Minor => Third::Minor,
            (Some(Sign::Augmented | Sign::Dominant), _)
            | (None, Head::Roman(..) | Head::Neapolitan | Head::Cadential)
            | (None, Head::AugmentedSixth(_)) => Third::Major,
        };
        let fifth = match sign {
            Some(Sign::Diminished | Sign::HalfDiminished) => Fifth::Diminished,
            Some(Sign::Augmented) => Fifth::Augmented,
            Some(Sign::Dominant) | None => Fifth::Perfect,
        };
        let mut quality = Quality {
            third,
            fifth,
            ..Quality::MAJOR
        };
        let figures = self.written.figures;
        if figures.is_some_and(|figures| figures.suspended) {
            quality.third = Third::Fourth;
        }
        let stack = figures.map_or(Stack::Triad, |figures| figures.stack);
        let uncommon = || self.fault(RomanTextExpected::CommonNote);
        if stack >= Stack::Seventh {
            let seventh = self.seventh(root, third).ok_or_else(uncommon)?;
            quality.seventh = Some(seventh);
        }
        for (place, number) in [
            (Stack::Ninth, 9),
            (Stack::Eleventh, 11),
            (Stack::Thirteenth, 13),
        ] {
            if stack >= place {
                let tension = tension(self.step(root, number)).ok_or_else(uncommon)?;
                quality.tensions = quality.tensions.with(tension);
            }
        }
        Ok(quality)
    }

    /// The scale's seventh, unless a sign names another; a minor chord never has a
    /// major one unasked.
    fn seventh(&self, root: Degree, third: Third) -> Option<Seventh> {
        match self.written.sign {
            Some(Sign::Diminished) => Some(Seventh::Diminished),
            Some(Sign::HalfDiminished | Sign::Dominant) => Some(Seventh::Minor),
            Some(Sign::Augmented) | None => match self.step(root, 7) {
                IntervalClass::MAJOR_SEVENTH if third == Third::Minor => Some(Seventh::Minor),
                IntervalClass::MAJOR_SEVENTH => Some(Seventh::Major),
                IntervalClass::MINOR_SEVENTH => Some(Seventh::Minor),
                _ => None,
            },
        }
    }
}

fn bracket_fault(at: &Range<usize>, expected: RomanTextExpected) -> Fault {
    Fault {
        at: at.clone(),
        expected,
    }
}

fn bass(root: Degree, quality: Quality, inversion: usize) -> Degree {
    let stacked: Vec<IntervalClass> = quality
        .members()
        .into_iter()
        .filter(|(member, _)| !matches!(member, Member::Sixth | Member::Tension))
        .map(|(_, interval)| interval)
        .collect();
    root.up(stacked[inversion])
}

/// The bass that figures give an augmented sixth; each is stacked in thirds from the
/// raised fourth degree, the French and the Swiss one from the second.
fn augmented_sixth_bass(kind: AugmentedSixth, figures: Option<Figures>) -> Option<Degree> {
    let flat_six = Degree::new(6, -1);
    let sharp_four = Degree::new(4, 1);
    let stack: &[Degree] = match kind {
        AugmentedSixth::Italian => &[sharp_four, flat_six, Degree::TONIC],
        AugmentedSixth::German => &[sharp_four, flat_six, Degree::TONIC, Degree::new(3, -1)],
        AugmentedSixth::French => &[Degree::new(2, 0), sharp_four, flat_six, Degree::TONIC],
        AugmentedSixth::Swiss => &[Degree::new(2, 1), sharp_four, flat_six, Degree::TONIC],
    };
    let Some(figures) = figures else {
        return Some(flat_six);
    };
    let is_plain_six = (figures.stack, figures.inversion) == (Stack::Triad, 1);
    let fits = (figures.stack == Stack::Triad) == (stack.len() == 3);
    if is_plain_six {
        Some(flat_six)
    } else if fits && figures.stack <= Stack::Seventh && !figures.suspended {
        stack.get(figures.inversion).copied()
    } else {
        None
    }
}

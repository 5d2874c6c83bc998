//! Which answers are the same, and how near a wrong one comes.
//!
//! Answers are compared by function. Where the same notes have several names, the
//! resolution and the bass decide which of them are right.

mod names;
mod tier;

pub use tier::Tier;

use super::analysis::role;
use super::role::Role;
use crate::devices::{Kind, Shape};
use crate::theory::{Degree, Head, IntervalClass, Line, Mode, Numeral, Quality, Seventh, Third};
pub use names::usual_name;
use names::{applied_spellings, other_names};

/// A chord of a line in its context, ready to judge answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Sounding {
    pub truth: Numeral,
    pub role: Role,
    pub mode: Mode,
    next: Numeral,
    names: Vec<Numeral>,
}

impl Sounding {
    /// The chord in `slot` of a line. What follows the last chord is the first.
    #[must_use]
    pub fn of(line: &Line, slot: usize, mode: Mode) -> Self {
        let slots = line.slots();
        let truth = slots[slot].numeral.clone();
        let next = slots[(slot + 1) % slots.len()].numeral.clone();
        let role = role(&truth, &next, mode);
        let names = other_names(&truth, &next, role);
        Self {
            truth,
            role,
            mode,
            next,
            names,
        }
    }

    /// The name by which the chord is asked and answered.
    #[must_use]
    pub fn usual(&self) -> Numeral {
        usual_name(&self.truth, &self.next, self.mode)
    }

    /// The numerals that count as right, the usual one first, each in its plainest form.
    #[must_use]
    pub fn accepted(&self) -> Vec<Numeral> {
        let usual = self.truth.without_tensions();
        let mut accepted = vec![usual.clone()];
        let mut add = |numeral: Numeral| {
            if !accepted.contains(&numeral) {
                accepted.push(numeral);
            }
        };
        add(usual.without_bass());
        add(bare(&usual));
        for name in applied_spellings(&usual, self.role, self.mode)
            .into_iter()
            .chain(self.names.clone())
        {
            add(name);
        }
        accepted
    }

    /// How near an answer comes.
    #[must_use]
    pub fn judge(&self, answer: &Numeral) -> Tier {
        let answer = &in_mode(answer, self.mode);
        if same_function(answer, &self.truth) {
            return Tier::Right;
        }
        if self.names.iter().any(|name| same_function(answer, name)) {
            return Tier::OtherName;
        }
        let answer_role = role(answer, &self.next, self.mode);
        let (own, other) = (Shape::acting(&self.truth), Shape::acting(answer));
        if same_notes(answer, &self.truth) {
            return Tier::WrongContext;
        }
        if self.role.target().is_some() && is_applied(answer) && kin(own.kind, other.kind) {
            return Tier::WrongTarget;
        }
        if own.root == other.root {
            return Tier::WrongQuality;
        }
        if answer_role.area() == self.role.area() {
            Tier::AreaOnly
        } else {
            Tier::Wrong
        }
    }
}

/// Same root and same kind: extensions, inversions and applied writing are no difference.
fn same_function(answer: &Numeral, truth: &Numeral) -> bool {
    Shape::acting(answer) == Shape::acting(truth)
}

fn is_applied(numeral: &Numeral) -> bool {
    let shape = Shape::acting(numeral);
    numeral.target.is_some()
        || matches!(numeral.head, Head::Substitute { .. })
        || (shape.kind == Kind::Dominant && shape.root != Degree::new(5, 0))
        || shape.kind == Kind::Diminished
}

/// Kinds between which only the target makes the difference.
fn kin(one: Kind, other: Kind) -> bool {
    one == other
        || matches!(
            (one, other),
            (Kind::Minor, Kind::HalfDiminished)
                | (Kind::HalfDiminished, Kind::Minor)
                | (Kind::Dominant, Kind::Diminished)
                | (Kind::Diminished, Kind::Dominant)
        )
}

/// Chromatic steps above the tonic of every note, in order.
fn sounding_notes(numeral: &Numeral) -> Vec<i32> {
    let mut notes: Vec<i32> = numeral
        .degrees()
        .iter()
        .map(|degree| degree.interval().chromatic())
        .collect();
    notes.sort_unstable();
    notes.dedup();
    notes
}

fn same_notes(one: &Numeral, other: &Numeral) -> bool {
    sounding_notes(&one.without_tensions()) == sounding_notes(&other.without_tensions())
}

/// In minor `VI`, `III` and `VII` mean the chords on the lowered degrees.
fn in_mode(answer: &Numeral, mode: Mode) -> Numeral {
    match (&answer.head, &answer.target, mode) {
        (Head::Roman { root, quality }, None, Mode::Minor)
            if matches!(root.number(), 3 | 6 | 7)
                && root.alteration() == 0
                && quality.third == Third::Major
                && quality.seventh.is_none_or(|s| s == Seventh::Major) =>
        {
            let lowered = root.up(IntervalClass::from_fifths(-7));
            Numeral {
                head: Head::Roman {
                    root: lowered,
                    quality: *quality,
                },
                ..answer.clone()
            }
        }
        _ => answer.clone(),
    }
}

/// The triad or seventh chord in its barest form: no added sixth, no seventh but a
/// dominant's or a diminished chord's.
fn bare(numeral: &Numeral) -> Numeral {
    let Head::Roman { root, quality } = numeral.head else {
        return numeral.clone();
    };
    let plain = match Kind::of(quality) {
        Kind::Major => Quality::MAJOR,
        Kind::Minor => Quality::MINOR,
        Kind::Dominant
        | Kind::HalfDiminished
        | Kind::Diminished
        | Kind::Augmented
        | Kind::Suspended => quality.plain(),
    };
    Numeral {
        head: Head::Roman {
            root,
            quality: plain,
        },
        bass: None,
        ..numeral.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theory::{BareSix, Meter};

    fn judge(mode: Mode, line: &str, answer: &str) -> Tier {
        let line = Line::read(line, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        let answer = answer.parse().expect("a numeral");
        Sounding::of(&line, 1, mode).judge(&answer)
    }

    #[test]
    fn answers_are_marked_by_function() {
        use Tier::{AreaOnly, OtherName, Right, Wrong, WrongContext, WrongQuality, WrongTarget};
        // The second chord of each line is asked.
        for (line, answer, tier) in [
            ("IVadd6 ivadd6 Iadd6", "iv", Right),
            ("IVadd6 ivadd6 Iadd6", "ivm6", Right),
            ("IVadd6 ivadd6 Iadd6", "iv7", Right),
            ("IVadd6 ivadd6 Iadd6", "IV", WrongQuality),
            ("IVadd6 ivadd6 Iadd6", "iiø7", WrongContext),
            ("IVadd6 ivadd6 V7", "iiø7", OtherName),
            ("I V7/ii ii7", "VI7", Right),
            ("I V7/ii ii7", "V/ii", Right),
            ("I V7/ii ii7", "V7b9/ii", Right),
            ("I V7/ii ii7", "V7/V", WrongTarget),
            ("I V7/ii ii7", "vi7", WrongQuality),
            ("I V7/ii ii7", "V7", AreaOnly),
            ("I V7/ii ii7", "IV", Wrong),
            ("I I7 IV", "V7/IV", Right),
            ("I I7 IV", "I", WrongQuality),
            ("IV #ivo7 I/5", "#ivo7", Right),
            ("IV #ivo7 I/5", "Io7", OtherName),
            ("IV #ivo7 V7", "viio7/V", Right),
            ("IV #ivo7 V7", "V7b9/V", OtherName),
            ("IV #ivo7 V7", "biiio7", WrongContext),
            ("iii7 biiio7 ii7", "#iio7", WrongContext),
            ("ii7 bII7 I", "subV7", Right),
            ("I bVI7 V7", "Ger6", Right),
            ("I bVI7 V7", "subV7/V", Right),
            ("ii7 V7sus4 I", "IV/5", OtherName),
            ("I vi7 ii7", "vi", Right),
            ("ii7 V7 I", "V13", Right),
        ] {
            assert_eq!(judge(Mode::Major, line, answer), tier, "{line}: {answer}");
        }
    }

    #[test]
    fn in_minor_the_flat_may_be_left_out() {
        for (line, answer) in [
            ("i bVI iiø7", "VI"),
            ("i bVI iiø7", "bVImaj7"),
            ("i bIII iv", "III"),
        ] {
            assert_eq!(
                judge(Mode::Minor, line, answer),
                Tier::Right,
                "{line}: {answer}"
            );
        }
    }

    #[test]
    fn every_accepted_name_is_judged_right() {
        for text in [
            "I V7/ii ii7",
            "IV iv I",
            "IV #ivo7 I/5",
            "ii7 bII7 I",
            "I bVI7 V7",
            "I Imaj7/3 IV",
        ] {
            let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
            for slot in 0..line.slots().len() {
                let sounding = Sounding::of(&line, slot, Mode::Major);
                for name in sounding.accepted() {
                    assert!(sounding.judge(&name).is_right(), "{text} {slot}: {name}");
                }
            }
        }
    }
}

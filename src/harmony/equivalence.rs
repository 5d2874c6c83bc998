//! Which answers are the same, and how near a wrong one comes.
//!
//! Answers are compared by function. Where the same notes have several names, the
//! resolution and the bass decide which of them are right.

use super::analysis::role;
use super::role::Role;
use crate::devices::{Kind, Shape};
use crate::theory::{
    Degree, Head, IntervalClass, Line, Mode, Numeral, Quality, Seventh, Tension, Tensions, Third,
};

/// How near an answer comes, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Tier {
    /// The same function, whatever its extensions.
    Right,
    /// The same function under another name that stands here.
    OtherName,
    /// The right kind of function, but of another chord: V7/V for V7/ii.
    WrongTarget,
    /// The right root with a quality that does something else.
    WrongQuality,
    /// Home, away or pull is right, and no more.
    AreaOnly,
    /// The same notes, named for a context that is not this one.
    WrongContext,
    Wrong,
}

impl Tier {
    pub const ALL: [Self; 7] = [
        Self::Right,
        Self::OtherName,
        Self::WrongTarget,
        Self::WrongQuality,
        Self::AreaOnly,
        Self::WrongContext,
        Self::Wrong,
    ];

    /// The credit that a scorer gives, 0 to 1.
    #[must_use]
    pub const fn credit(self) -> f64 {
        match self {
            Self::Right | Self::OtherName => 1.0,
            Self::WrongTarget | Self::WrongQuality | Self::WrongContext => 0.5,
            Self::AreaOnly => 0.25,
            Self::Wrong => 0.0,
        }
    }

    #[must_use]
    pub const fn is_right(self) -> bool {
        matches!(self, Self::Right | Self::OtherName)
    }

    /// The name in the journal.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::OtherName => "other-name",
            Self::WrongTarget => "wrong-target",
            Self::WrongQuality => "wrong-quality",
            Self::AreaOnly => "area-only",
            Self::WrongContext => "wrong-context",
            Self::Wrong => "wrong",
        }
    }
}

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
        for name in applied_spellings(&usual, self.role)
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

/// `V7/ii` and `VI7` for each other.
fn applied_spellings(numeral: &Numeral, role: Role) -> Vec<Numeral> {
    let shape = Shape::acting(numeral);
    let quality = numeral.quality().plain();
    let plain = Numeral::roman(shape.root, quality);
    let over = |head: Head, target: Degree| {
        let target_quality = match target.alteration() == 0 && matches!(target.number(), 2 | 3 | 6)
        {
            true => Quality::MINOR,
            false => Quality::MAJOR,
        };
        let target = Box::new(Numeral::roman(target, target_quality));
        Numeral {
            head,
            target: Some(target),
            bass: None,
        }
    };
    match role {
        Role::AppliedDominant(target) => vec![
            over(
                Head::Roman {
                    root: Degree::new(5, 0),
                    quality,
                },
                target,
            ),
            plain,
        ],
        Role::AppliedLeadingTone(target) => vec![
            over(
                Head::Roman {
                    root: Degree::new(7, 0),
                    quality,
                },
                target,
            ),
            plain,
        ],
        Role::TritoneSubstitute(target) if target == Degree::TONIC => {
            vec![
                Numeral {
                    head: Head::Substitute { quality },
                    target: None,
                    bass: None,
                },
                plain,
            ]
        }
        Role::TritoneSubstitute(target) => vec![over(Head::Substitute { quality }, target), plain],
        Role::Tonic
        | Role::TonicSubstitute
        | Role::Subdominant
        | Role::MinorSubdominant
        | Role::Neapolitan
        | Role::Dominant
        | Role::LeadingTone
        | Role::MinorDominant
        | Role::RelatedTwo(_)
        | Role::Backdoor
        | Role::Borrowed
        | Role::SharpFourHalfDiminished
        | Role::FallingDiminished
        | Role::CommonToneDiminished
        | Role::BluesSeventh
        | Role::Chromatic => vec![plain],
    }
}

/// Other names for the same notes that stand in this context.
fn other_names(truth: &Numeral, next: &Numeral, role: Role) -> Vec<Numeral> {
    let shape = Shape::acting(truth);
    let mut names = Vec::new();
    match shape.kind {
        Kind::Diminished => names.extend(diminished_names(truth, next, role)),
        Kind::Major | Kind::Minor if truth.quality().added_sixth => {
            names.extend(sixth_chord_name(truth, next));
        }
        Kind::Dominant if truth.quality().third == Third::Fourth => {
            // The suspended dominant is also ii7 or IV over the fifth degree.
            let fifth_below = shape.root.up(IntervalClass::PERFECT_FIFTH);
            let two = Numeral::roman(fifth_below, Quality::MINOR_SEVENTH);
            names.push(Numeral {
                bass: Some(shape.root),
                ..two
            });
            let four = shape.root.up(IntervalClass::MINOR_SEVENTH);
            names.push(Numeral {
                bass: Some(shape.root),
                ..Numeral::roman(four, Quality::MAJOR)
            });
        }
        Kind::Major
        | Kind::Minor
        | Kind::Dominant
        | Kind::HalfDiminished
        | Kind::Augmented
        | Kind::Suspended => {}
    }
    names
}

/// The names of a diminished seventh that say what it does here: by the leading tone of
/// its target, by the note that it holds, by the note that falls, or by its bass.
fn diminished_names(truth: &Numeral, next: &Numeral, role: Role) -> Vec<Numeral> {
    let named = |root: Degree| Numeral::roman(root, Quality::DIMINISHED_SEVENTH);
    let flat_nine = Quality {
        tensions: Tensions::NONE.with(Tension::FlatNine),
        ..Quality::DOMINANT_SEVENTH
    };
    let rootless =
        |target: Degree| Numeral::roman(target.up(IntervalClass::PERFECT_FIFTH), flat_nine);
    let from_bass = truth.bass.map(named);
    let names = match role {
        Role::AppliedLeadingTone(target) => {
            vec![
                named(target.up(IntervalClass::MAJOR_SEVENTH)),
                rootless(target),
            ]
        }
        Role::LeadingTone => vec![named(Degree::new(7, 0)), rootless(Degree::TONIC)],
        Role::CommonToneDiminished if next.root() == Degree::TONIC => {
            vec![named(Degree::TONIC), named(Degree::new(4, 1))]
        }
        Role::CommonToneDiminished => vec![named(next.root())],
        Role::FallingDiminished => vec![named(next.root().up(IntervalClass::MINOR_SECOND))],
        Role::Tonic
        | Role::TonicSubstitute
        | Role::Subdominant
        | Role::MinorSubdominant
        | Role::Neapolitan
        | Role::Dominant
        | Role::MinorDominant
        | Role::AppliedDominant(_)
        | Role::RelatedTwo(_)
        | Role::TritoneSubstitute(_)
        | Role::Backdoor
        | Role::Borrowed
        | Role::SharpFourHalfDiminished
        | Role::BluesSeventh
        | Role::Chromatic => Vec::new(),
    };
    names.into_iter().chain(from_bass).collect()
}

/// I with an added sixth is vi7, ii7 is IV with an added sixth: the name on the root a
/// minor third below stands where the bass does not tell them apart.
fn sixth_chord_name(truth: &Numeral, next: &Numeral) -> Option<Numeral> {
    let shape = Shape::acting(truth);
    let below = shape.root.up(IntervalClass::MAJOR_SIXTH);
    let to_dominant = Shape::acting(next).kind == Kind::Dominant;
    match shape.kind {
        Kind::Minor if to_dominant => Some(Numeral::roman(below, Quality::HALF_DIMINISHED)),
        Kind::Major if truth.sounding_bass() != shape.root => {
            Some(Numeral::roman(below, Quality::MINOR_SEVENTH))
        }
        Kind::Major
        | Kind::Minor
        | Kind::Dominant
        | Kind::HalfDiminished
        | Kind::Diminished
        | Kind::Augmented
        | Kind::Suspended => None,
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

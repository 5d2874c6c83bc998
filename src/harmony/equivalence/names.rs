//! The names that one chord may rightly bear in its context.

use crate::devices::{Kind, Shape};
use crate::harmony::analysis::role;
use crate::harmony::role::{Role, is_minor_degree};
use crate::theory::{
    Degree, Head, IntervalClass, Mode, Numeral, Quality, Tension, Tensions, Third,
};

/// The name by which a chord is asked and answered: no extensions, no inversion, an
/// applied dominant by its target.
#[must_use]
pub fn usual_name(chord: &Numeral, next: &Numeral, mode: Mode) -> Numeral {
    let shape = Shape::acting(chord);
    let suspended = chord.quality().third == Third::Fourth;
    let quality = match shape.kind {
        Kind::Major => Quality::MAJOR,
        Kind::Minor => Quality::MINOR,
        Kind::Dominant if suspended => chord.quality().plain(),
        Kind::Dominant => Quality::DOMINANT_SEVENTH,
        Kind::HalfDiminished => Quality::HALF_DIMINISHED,
        Kind::Diminished => Quality::DIMINISHED_SEVENTH,
        Kind::Augmented => Quality::AUGMENTED,
        Kind::Suspended => chord.quality().plain(),
    };
    let head = Head::Roman {
        root: Degree::new(5, 0),
        quality,
    };
    match role(chord, next, mode) {
        Role::AppliedDominant(target) => over(head, target, mode),
        Role::Tonic
        | Role::TonicSubstitute
        | Role::Subdominant
        | Role::MinorSubdominant
        | Role::Neapolitan
        | Role::Dominant
        | Role::LeadingTone
        | Role::MinorDominant
        | Role::AppliedLeadingTone(_)
        | Role::RelatedTwo(_)
        | Role::TritoneSubstitute(_)
        | Role::Backdoor
        | Role::Borrowed
        | Role::SharpFourHalfDiminished
        | Role::FallingDiminished
        | Role::CommonToneDiminished
        | Role::BluesSeventh
        | Role::Chromatic => Numeral::roman(shape.root, quality),
    }
}

/// A head applied to the ordinary chord on a degree.
fn over(head: Head, target: Degree, mode: Mode) -> Numeral {
    let quality = if is_minor_degree(target, mode) {
        Quality::MINOR
    } else {
        Quality::MAJOR
    };
    let target = Some(Box::new(Numeral::roman(target, quality)));
    Numeral {
        head,
        target,
        bass: None,
    }
}

/// `V7/ii` and `VI7` for each other.
pub(super) fn applied_spellings(numeral: &Numeral, role: Role, mode: Mode) -> Vec<Numeral> {
    let shape = Shape::acting(numeral);
    let quality = numeral.quality().plain();
    let plain = Numeral::roman(shape.root, quality);
    let over = |head: Head, target: Degree| over(head, target, mode);
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
pub(super) fn other_names(truth: &Numeral, next: &Numeral, role: Role) -> Vec<Numeral> {
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

//! How a chord is called: the one name by which it is asked, and its spellings.

use crate::devices::{Kind, Shape};
use crate::harmony::analysis::{Context, is_resolved, role, suspends_dominant};
use crate::harmony::role::{Role, is_minor_degree};
use crate::theory::{
    AugmentedSixth, Degree, Head, IntervalClass, Mode, Numeral, Quality, Seventh, Third,
};

/// The name by which a chord is asked: no extensions, no inversion but the cadential
/// six-four, an applied dominant by its target.
#[must_use]
pub fn usual_name(chord: &Numeral, context: &Context) -> Numeral {
    usual_in(chord, role(chord, context), context)
}

/// The same, but a name that no musician would come up with of his own accord, such as
/// `V7/vii`, gives way to the dominant's.
#[must_use]
pub fn current_name(chord: &Numeral, context: &Context) -> Numeral {
    let name = usual_name(chord, context);
    if is_current(&name, context.mode) {
        name
    } else {
        Numeral::roman(Degree::new(5, 0), Quality::DOMINANT_SEVENTH)
    }
}

/// Roots of the diminished sevenths that have a name of their own: those that lead up to a
/// degree of the key, that of the tonic, and the one that falls to 2.
const DIMINISHED: [(u8, i16); 7] = [(1, 0), (1, 1), (2, 1), (3, -1), (4, 1), (5, 1), (7, 0)];

/// Whether a name is one that musicians use: applied to a degree that can be a key, a
/// diminished seventh on a degree where one is at home, no minor triad on 7.
fn is_current(name: &Numeral, mode: Mode) -> bool {
    let place = |degree: Degree| (degree.number(), degree.alteration());
    if let Some(target) = &name.target {
        let (number, alteration) = place(target.root());
        return target.target.is_none()
            && match mode {
                Mode::Major => number != 7 || alteration != 0,
                Mode::Minor => !matches!((number, alteration), (2 | 7, 0)),
            };
    }
    let root = place(Shape::acting(name).root);
    match Shape::acting(name).kind {
        Kind::Diminished => DIMINISHED.contains(&root),
        Kind::Minor => root != (7, 0),
        Kind::Major | Kind::Dominant | Kind::HalfDiminished | Kind::Augmented | Kind::Suspended => {
            true
        }
    }
}

/// The usual name of a chord with this role in its context.
pub(super) fn usual_in(chord: &Numeral, chord_role: Role, context: &Context) -> Numeral {
    let root = Shape::acting(chord).root;
    let quality = usual_quality(chord, chord_role);
    match chord_role {
        // Where it does not resolve it is called after its own root.
        Role::AppliedDominant(target) if is_resolved(root, context) => {
            over(applied_head(5, quality), target, context)
        }
        Role::AppliedLeadingTone(target) if root.alteration() == 0 => {
            over(applied_head(7, quality), target, context)
        }
        Role::AugmentedSixth(_) | Role::CommonToneAugmentedSixth | Role::Neapolitan => {
            match chord.head {
                // How its fifth is spelled is not heard.
                Head::AugmentedSixth(AugmentedSixth::Swiss) => Numeral {
                    head: Head::AugmentedSixth(AugmentedSixth::German),
                    ..chord.without_bass()
                },
                Head::AugmentedSixth(_) | Head::Neapolitan => chord.without_bass(),
                Head::Roman { .. } | Head::Substitute { .. } => Numeral::roman(root, quality),
            }
        }
        Role::SuspendedDominant if suspends_dominant(chord) => Numeral::roman(
            Degree::new(5, 0),
            Quality {
                third: Third::Fourth,
                seventh: Some(Seventh::Minor),
                ..Quality::MAJOR
            },
        ),
        Role::CadentialSixFour => Numeral {
            bass: Some(chord.sounding_bass()),
            ..Numeral::roman(root, quality)
        },
        Role::OfKey(key) => {
            let within = Degree::at(IntervalClass::from_fifths(
                root.interval().fifths() - key.interval().fifths(),
            ));
            let head = Head::Roman {
                root: within,
                quality,
            };
            let target = Box::new(Numeral::roman(key, Quality::MAJOR));
            Numeral {
                head,
                target: chord.target.clone().or(Some(target)),
                bass: None,
            }
        }
        _ => Numeral::roman(root, quality),
    }
}

/// The quality in its plainest form that still does the same.
fn usual_quality(chord: &Numeral, chord_role: Role) -> Quality {
    let written = chord.quality();
    match Shape::acting(chord).kind {
        Kind::Major if matches!(chord_role, Role::OfKey(_)) => Quality::MAJOR,
        Kind::Major => plain_major(chord),
        Kind::Dominant if chord_role == Role::Chromatic => Quality::MAJOR,
        Kind::Minor => Quality::MINOR,
        Kind::Dominant if written.third == Third::Fourth => written.plain(),
        Kind::Dominant => Quality::DOMINANT_SEVENTH,
        Kind::HalfDiminished => Quality::HALF_DIMINISHED,
        Kind::Diminished if written.seventh.is_none() => Quality::DIMINISHED,
        Kind::Diminished => Quality::DIMINISHED_SEVENTH,
        Kind::Augmented => Quality::AUGMENTED,
        Kind::Suspended => written.plain(),
    }
}

/// The plainest quality of a chord that rests as a major chord: a triad, or where a triad
/// on that root would be heard as a dominant, the major seventh that rules it out.
pub(super) fn plain_major(chord: &Numeral) -> Quality {
    let triad = Numeral::roman(chord.root(), Quality::MAJOR);
    let misleads =
        Shape::acting(&triad).kind == Kind::Dominant && Shape::acting(chord).kind == Kind::Major;
    if misleads {
        Quality::MAJOR_SEVENTH
    } else {
        Quality::MAJOR
    }
}

fn applied_head(number: u8, quality: Quality) -> Head {
    Head::Roman {
        root: Degree::new(number, 0),
        quality,
    }
}

/// A head applied to the chord on a degree: the one that follows, if it stands there, or
/// else the ordinary one.
fn over(head: Head, target: Degree, context: &Context) -> Numeral {
    let minor = is_minor_target(target, context);
    let quality = if minor {
        Quality::MINOR
    } else {
        Quality::MAJOR
    };
    Numeral {
        head,
        target: Some(Box::new(Numeral::roman(target, quality))),
        bass: None,
    }
}

/// Whether the chord on a target is minor: the one that follows, if it stands there, or else
/// the ordinary one.
pub(super) fn is_minor_target(target: Degree, context: &Context) -> bool {
    let next = Shape::acting(&context.next);
    match next.kind {
        Kind::Minor if next.root == target => true,
        Kind::Major if next.root == target => false,
        Kind::Major
        | Kind::Minor
        | Kind::Dominant
        | Kind::HalfDiminished
        | Kind::Diminished
        | Kind::Augmented
        | Kind::Suspended => is_minor_degree(target, context.mode),
    }
}

/// Names that chords on this root go by in other contexts, and perhaps in this one: as the
/// dominant, the leading-tone chord, the substitute or the related ii of a degree.
pub(super) fn customary(chord: &Numeral, context: &Context) -> Vec<Numeral> {
    let Shape { root, kind } = Shape::acting(chord);
    let applied = |number: u8, interval: IntervalClass| {
        let head = applied_head(number, usual_quality(chord, Role::Tonic));
        (head, root.up(interval))
    };
    let substitute = Head::Substitute {
        quality: Quality::DOMINANT_SEVENTH,
    };
    let (names, special) = match kind {
        Kind::Dominant => (
            vec![
                applied(5, IntervalClass::PERFECT_FOURTH),
                (substitute, root.up(IntervalClass::MAJOR_SEVENTH)),
            ],
            (root == Degree::new(6, -1)).then_some(Head::AugmentedSixth(AugmentedSixth::German)),
        ),
        Kind::Diminished => (vec![applied(7, IntervalClass::MINOR_SECOND)], None),
        Kind::HalfDiminished => (
            vec![
                applied(7, IntervalClass::MINOR_SECOND),
                applied(2, IntervalClass::MINOR_SEVENTH),
            ],
            None,
        ),
        Kind::Minor => (vec![applied(2, IntervalClass::MINOR_SEVENTH)], None),
        Kind::Major => (
            Vec::new(),
            (root == Degree::new(2, -1)).then_some(Head::Neapolitan),
        ),
        Kind::Augmented | Kind::Suspended => (Vec::new(), None),
    };
    let is_in_use =
        |target: Degree| target != Degree::TONIC && (-5..=5).contains(&target.interval().fifths());
    let special = special.map(|head| Numeral {
        head,
        target: None,
        bass: None,
    });
    names
        .into_iter()
        .filter(|(_, target)| is_in_use(*target))
        .map(|(head, target)| over(head, target, context))
        .chain(special)
        .collect()
}

/// `V7/ii` and `VI7` for each other, likewise the other applied chords.
pub(super) fn spellings(chord: &Numeral, chord_role: Role, context: &Context) -> Vec<Numeral> {
    let quality = chord.quality().plain();
    let plain = Numeral::roman(Shape::acting(chord).root, quality);
    let substitute = Head::Substitute {
        quality: Quality::DOMINANT_SEVENTH,
    };
    let applied = match chord_role {
        Role::AppliedDominant(target) => over(applied_head(5, quality), target, context),
        Role::AppliedLeadingTone(target) => over(applied_head(7, quality), target, context),
        Role::RelatedTwo(target) if target != Degree::TONIC => {
            over(applied_head(2, quality), target, context)
        }
        Role::TritoneSubstitute(target) if target == Degree::TONIC => Numeral {
            head: substitute,
            target: None,
            bass: None,
        },
        Role::TritoneSubstitute(target) | Role::AugmentedSixth(target) => {
            over(substitute, target, context)
        }
        _ => return vec![plain],
    };
    vec![applied, plain]
}

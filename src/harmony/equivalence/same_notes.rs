//! Names that other chords lend to the same notes, where the context lets them stand.

use crate::devices::{Kind, Shape};
use crate::harmony::analysis::{Context, suspends_dominant};
use crate::harmony::role::{Role, fourth_above};
use crate::theory::{
    AugmentedSixth, Degree, Fifth, Head, IntervalClass, Mode, Numeral, Quality, Seventh, Tension,
    Tensions, Third,
};

/// Other names for the same notes that stand in this context. A name that is written with
/// a bass degree, a tension or a lowered fifth stands only with it.
pub(super) fn other_names(truth: &Numeral, role: Role, context: &Context) -> Vec<Numeral> {
    let shape = Shape::acting(truth);
    let over_five = truth.sounding_bass() == Degree::new(5, 0);
    match shape.kind {
        Kind::Diminished => diminished(truth, role, context),
        Kind::HalfDiminished if !suspends_dominant(truth) => half_diminished(role)
            .into_iter()
            .chain(sixth_chord(truth, context))
            .collect(),
        Kind::Major if leads_to_relative(truth, role, context) => vec![Numeral {
            target: Some(Box::new(Numeral::roman(
                context.next.root(),
                Quality::MAJOR,
            ))),
            ..Numeral::roman(Degree::new(5, 0), Quality::MAJOR)
        }],
        Kind::Major | Kind::Minor if role == Role::CadentialSixFour => Vec::new(),
        Kind::Major | Kind::Minor | Kind::HalfDiminished if suspends_dominant(truth) => {
            suspended(context.mode)
        }
        Kind::Dominant if over_five && truth.quality().third == Third::Fourth => {
            suspended(context.mode)
        }
        Kind::Major | Kind::Minor => sixth_chord(truth, context).into_iter().collect(),
        Kind::Dominant if truth.head == Head::AugmentedSixth(AugmentedSixth::French) => {
            vec![french(truth)]
        }
        Kind::Dominant | Kind::HalfDiminished | Kind::Augmented | Kind::Suspended => Vec::new(),
    }
}

fn diminished_on(root: Degree) -> Numeral {
    Numeral::roman(root, Quality::DIMINISHED_SEVENTH)
}

/// A dominant that lacks its root, named with the ninth that gives it away.
fn rootless(target: Degree, ninth: Tension) -> Numeral {
    let quality = Quality {
        tensions: Tensions::NONE.with(ninth),
        ..Quality::DOMINANT_SEVENTH
    };
    Numeral::roman(target.up(IntervalClass::PERFECT_FIFTH), quality)
}

/// The names of a diminished seventh that say what it does here: by the leading tone of
/// its target, by the note that it holds, by the note that falls, or by its bass.
fn diminished(truth: &Numeral, role: Role, context: &Context) -> Vec<Numeral> {
    let next = &context.next;
    let home = next.root() == Degree::TONIC;
    let names = if let Role::AppliedLeadingTone(target) = role {
        vec![
            diminished_on(target.up(IntervalClass::MAJOR_SEVENTH)),
            rootless(target, Tension::FlatNine),
        ]
    } else if role == Role::LeadingTone {
        vec![
            diminished_on(Degree::new(7, 0)),
            rootless(Degree::TONIC, Tension::FlatNine),
        ]
    } else if role == Role::CommonToneDiminished && home {
        vec![
            diminished_on(Degree::TONIC),
            diminished_on(Degree::new(2, 1)),
            diminished_on(Degree::new(4, 1)),
        ]
    } else if role == Role::CommonToneDiminished {
        // ♯ii°7 before I, ♯vi°7 before V: Kostka and Payne (from memory).
        vec![
            diminished_on(next.root()),
            diminished_on(next.root().up(IntervalClass::AUGMENTED_SECOND)),
        ]
    } else if role == Role::FallingDiminished {
        vec![diminished_on(next.root().up(IntervalClass::MINOR_SECOND))]
    } else {
        Vec::new()
    };
    let from_bass = truth.bass.map(diminished_on);
    names.into_iter().chain(from_bass).collect()
}

/// The leading-tone chord is the dominant's ninth chord without its root.
fn half_diminished(role: Role) -> Vec<Numeral> {
    if let Role::AppliedLeadingTone(target) = role {
        let on_leading_tone = target.up(IntervalClass::MAJOR_SEVENTH);
        vec![
            rootless(target, Tension::Nine),
            Numeral::roman(on_leading_tone, Quality::HALF_DIMINISHED),
        ]
    } else if role == Role::LeadingTone {
        vec![rootless(Degree::TONIC, Tension::Nine)]
    } else {
        Vec::new()
    }
}

/// The suspended dominant is V7sus4, and ii or IV over the fifth degree.
fn suspended(mode: Mode) -> Vec<Numeral> {
    let five = Degree::new(5, 0);
    let sus = Quality {
        third: Third::Fourth,
        seventh: Some(Seventh::Minor),
        ..Quality::MAJOR
    };
    let (two, four) = match mode {
        Mode::Major => (Quality::MINOR_SEVENTH, Quality::MAJOR),
        Mode::Minor => (Quality::HALF_DIMINISHED, Quality::MINOR),
    };
    let over_five = |number: u8, quality: Quality| Numeral {
        bass: Some(five),
        ..Numeral::roman(Degree::new(number, 0), quality)
    };
    vec![
        Numeral::roman(five, sus),
        over_five(2, two),
        over_five(4, four),
    ]
}

/// The French sixth is the dominant of V with its fifth lowered and in the bass.
fn french(truth: &Numeral) -> Numeral {
    let quality = Quality {
        fifth: Fifth::Diminished,
        ..Quality::DOMINANT_SEVENTH
    };
    let tonic = truth.local_tonic();
    Numeral {
        bass: Some(truth.root()),
        ..Numeral::roman(tonic.up(IntervalClass::MAJOR_SECOND), quality)
    }
}

/// A triad with an added sixth has the notes of the seventh chord on that sixth, and the
/// seventh chord over its third those of the triad there. The other name stands where the
/// bass does not tell them apart, or where the seventh chord would resolve by falling a
/// fifth to a dominant: ii rather than IV before V, iiø rather than iv.
fn sixth_chord(truth: &Numeral, context: &Context) -> Option<Numeral> {
    let shape = Shape::acting(truth);
    let quality = truth.quality();
    if quality.added_sixth {
        let below = shape.root.up(IntervalClass::MAJOR_SIXTH);
        let next = Shape::acting(&context.next);
        let resolves = next.kind == Kind::Dominant && next.root == fourth_above(below);
        let inverted = truth.sounding_bass() != shape.root;
        let seventh_chord = if shape.kind == Kind::Minor {
            Quality::HALF_DIMINISHED
        } else {
            Quality::MINOR_SEVENTH
        };
        return (resolves || inverted).then(|| Numeral::roman(below, seventh_chord));
    }
    let third = shape.root.up(IntervalClass::MINOR_THIRD);
    let seventh = shape.root.up(IntervalClass::MINOR_SEVENTH);
    let triad = match shape.kind {
        Kind::Minor if quality.seventh == Some(Seventh::Minor) => Quality::MAJOR,
        Kind::HalfDiminished => Quality::MINOR,
        _ => return None,
    };
    // Over its seventh, as over a pedal, the chord is that triad over its fifth.
    [third, seventh]
        .contains(&truth.sounding_bass())
        .then(|| Numeral::roman(third, triad))
}

/// Whether the subtonic of minor is the dominant of the relative major that follows.
fn leads_to_relative(truth: &Numeral, role: Role, context: &Context) -> bool {
    let next = &context.next;
    role == Role::Subtonic
        && truth.target.is_none()
        && next.root() == Degree::new(3, -1)
        && Shape::of(next).kind == Kind::Major
}

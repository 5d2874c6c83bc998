//! Comparing an answer with a numeral: by function, by name, by notes.

use crate::devices::{Kind, Shape};
use crate::theory::{Degree, Fifth, Head, IntervalClass, Mode, Numeral, Tension, Third};

/// Root and kind, with an augmented dominant counted among the dominants.
fn acting(numeral: &Numeral) -> Shape {
    let shape = Shape::acting(numeral);
    let kind = match shape.kind {
        Kind::Augmented if shape.root != Degree::TONIC => Kind::Dominant,
        kind => kind,
    };
    Shape { kind, ..shape }
}

fn holds_third_back(numeral: &Numeral) -> bool {
    matches!(numeral.quality().third, Third::Fourth | Third::Second)
}

/// Same root and same kind: extensions, inversions and applied writing are no difference.
pub(super) fn same_function(answer: &Numeral, truth: &Numeral) -> bool {
    let is_same =
        acting(answer) == acting(truth) || is_triad_of(answer, truth) || is_triad_of(truth, answer);
    is_same && holds_third_back(answer) == holds_third_back(truth)
}

/// Whether the first is the diminished triad of a half-diminished seventh: a seventh never
/// costs a mark.
fn is_triad_of(triad: &Numeral, chord: &Numeral) -> bool {
    let (lower, whole) = (acting(triad), acting(chord));
    triad.quality().seventh.is_none()
        && lower.kind == Kind::Diminished
        && whole.kind == Kind::HalfDiminished
        && lower.root == whole.root
}

/// Same kind on the same key of the piano.
pub(super) fn sounds_alike(answer: &Numeral, truth: &Numeral) -> bool {
    acting(answer).sounds_as(acting(truth)) && holds_third_back(answer) == holds_third_back(truth)
}

/// Whether an answer is a name, with the bass, the ninth and the lowered fifth that the
/// name is written with.
pub(super) fn bears_name(answer: &Numeral, name: &Numeral) -> bool {
    let (given, wanted) = (answer.quality(), name.quality());
    let ninth = [Tension::Nine, Tension::FlatNine]
        .into_iter()
        .all(|ninth| !wanted.tensions.has(ninth) || given.tensions.has(ninth));
    let fifth = wanted.fifth != Fifth::Diminished || given.fifth == wanted.fifth;
    let bass = name.bass.is_none_or(|bass| answer.sounding_bass() == bass);
    same_function(answer, name) && ninth && fifth && bass
}

pub(super) fn is_applied(numeral: &Numeral) -> bool {
    let shape = Shape::acting(numeral);
    numeral.target.is_some()
        || matches!(numeral.head, Head::Substitute { .. })
        || (shape.kind == Kind::Dominant && shape.root != Degree::new(5, 0))
        || shape.kind == Kind::Diminished
}

/// Kinds between which only the target makes the difference.
pub(super) fn kin(one: Kind, other: Kind) -> bool {
    one == other
        || matches!(
            (one, other),
            (Kind::Minor, Kind::HalfDiminished)
                | (Kind::HalfDiminished, Kind::Minor)
                | (Kind::Dominant, Kind::Diminished)
                | (Kind::Diminished, Kind::Dominant)
        )
}

/// The dominant with its third held back, by any sign: `Vsus`, `V9sus4`, or `V11`, which is
/// played without its third (common practice).
pub(super) fn suspends_five(answer: &Numeral) -> bool {
    let quality = answer.quality();
    let eleventh = quality.tensions.has(Tension::Eleven) && quality.third == Third::Major;
    answer.target.is_none()
        && answer.root() == Degree::new(5, 0)
        && matches!(Shape::of(answer).kind, Kind::Dominant | Kind::Suspended)
        && (holds_third_back(answer) || eleventh)
}

/// Whether an answer is a chord over a foreign bass that together give the truth's notes
/// over the truth's bass: `vi/♯4` for `♯ivø7`.
pub(super) fn spells_out(answer: &Numeral, truth: &Numeral) -> bool {
    let bass = |numeral: &Numeral| numeral.sounding_bass().interval().chromatic();
    let notes_over_bass = |numeral: &Numeral| {
        let mut notes = sounding_notes(&numeral.without_tensions());
        if let Err(at) = notes.binary_search(&bass(numeral)) {
            notes.insert(at, bass(numeral));
        }
        notes
    };
    let is_foreign = !sounding_notes(answer).contains(&bass(answer));
    is_foreign && bass(answer) == bass(truth) && notes_over_bass(answer) == notes_over_bass(truth)
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

pub(super) fn same_notes(one: &Numeral, other: &Numeral) -> bool {
    sounding_notes(&one.without_tensions()) == sounding_notes(&other.without_tensions())
}

/// The ways to read an answer: as it is written, and in minor with `III`, `VI` and `VII`,
/// alone or as a target, on the lowered degrees.
pub(super) fn readings(answer: &Numeral, mode: Mode) -> Vec<Numeral> {
    let mut readings = vec![answer.clone()];
    if mode == Mode::Minor {
        let (head, target) = match &answer.target {
            None => (lowered(answer).map(|lowered| lowered.head), None),
            Some(target) => (Some(answer.head), lowered(target)),
        };
        if let Some(head) = head
            && (answer.target.is_none() || target.is_some())
        {
            readings.push(Numeral {
                head,
                target: target.map(Box::new),
                bass: answer.bass,
            });
        }
    }
    readings
}

fn lowered(numeral: &Numeral) -> Option<Numeral> {
    match &numeral.head {
        Head::Roman { root, quality }
            if numeral.target.is_none()
                && matches!(root.number(), 3 | 6 | 7)
                && root.alteration() == 0
                && quality.third == Third::Major =>
        {
            Some(Numeral {
                head: Head::Roman {
                    root: root.up(IntervalClass::from_fifths(-7)),
                    quality: *quality,
                },
                ..numeral.clone()
            })
        }
        Head::Roman { .. }
        | Head::Substitute { .. }
        | Head::AugmentedSixth(_)
        | Head::Neapolitan => None,
    }
}

//! Whether the names that are accepted for a chord, and those on offer, are fair.

use crate::devices::Shape;
use crate::harmony::{ChordInContext, Context, Role, Tier, role};
use crate::quiz::ask::fairness::Unfair;
use crate::theory::{Notation, Numeral};

/// What is unfair in the names that are accepted for a chord.
pub(super) fn accepted(sounding: &ChordInContext, context: &Context) -> Vec<(Unfair, String)> {
    let mut found = Vec::new();
    for name in sounding.accepted() {
        let tier = sounding.judge(&name);
        if !tier.is_right() {
            found.push((Unfair::AcceptsNothing, name.to_string()));
        }
        // Another name for the same notes is told as one when it is marked.
        let says_so = tier == Tier::OtherName;
        let own = role(&name, context);
        if !says_so && own != sounding.role && !told_apart_by_no_ear(sounding, &name, own) {
            let words = |role: Role| role.words(context.mode, Notation::Text);
            let detail = format!(
                "{name} is the {}, not the {}",
                words(own),
                words(sounding.role)
            );
            found.push((Unfair::TwoFunctions, detail));
        }
    }
    found
}

/// The German sixth and the substitute of V7/V are one chord by its sound and by what it
/// does, under the names of two trades.
fn told_apart_by_no_ear(sounding: &ChordInContext, name: &Numeral, own: Role) -> bool {
    Shape::acting(name).sounds_as(Shape::acting(&sounding.truth))
        && own.target() == sounding.role.target()
        && own.area() == sounding.role.area()
}

/// What is unfair in the numerals on offer for a chord.
pub(super) fn offered(
    sounding: &ChordInContext,
    context: &Context,
    choices: &[Numeral],
) -> Vec<(Unfair, String)> {
    if choices.is_empty() {
        return Vec::new();
    }
    let mut found = Vec::new();
    let is_right = |choice: &Numeral| sounding.judge(choice).is_right();
    let right: Vec<&Numeral> = choices.iter().filter(|one| is_right(one)).collect();
    match right.as_slice() {
        [] => found.push((Unfair::NoRightAnswer, sounding.usual().to_string())),
        [_] => {}
        [one, other, ..] => found.push((Unfair::SeveralRight, format!("{one} and {other}"))),
    }
    for (at, one) in choices.iter().enumerate() {
        for other in &choices[at + 1..] {
            if !(is_right(one) && is_right(other)) && same_here(one, other, context) {
                found.push((Unfair::Twins, format!("{one} and {other}")));
            }
        }
        if !is_right(one) && as_well_supported(one, sounding, context) {
            found.push((Unfair::AsWellSupported, one.to_string()));
        }
    }
    found
}

/// Whether two numerals are the same function in a context, or are written alike.
fn same_here(one: &Numeral, other: &Numeral, context: &Context) -> bool {
    let takes = |truth: &Numeral, answer: &Numeral| {
        ChordInContext::new(truth.clone(), context.clone())
            .judge(answer)
            .is_right()
    };
    let written = |numeral: &Numeral| numeral.written(Notation::Screen);
    written(one) == written(other) || takes(one, other) || takes(other, one)
}

/// Whether a wrong answer says here the very thing that the chord does, of the notes that
/// sound.
fn as_well_supported(wrong: &Numeral, sounding: &ChordInContext, context: &Context) -> bool {
    let notes = |numeral: &Numeral| {
        let mut notes: Vec<i32> = numeral
            .without_tensions()
            .degrees()
            .iter()
            .map(|degree| degree.interval().chromatic())
            .collect();
        notes.sort_unstable();
        notes
    };
    let same_shape = Shape::acting(wrong).sounds_as(Shape::acting(&sounding.truth));
    (same_shape || notes(wrong) == notes(&sounding.truth)) && role(wrong, context) == sounding.role
}

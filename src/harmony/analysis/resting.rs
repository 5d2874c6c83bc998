//! Major and minor chords: at home, away from it, or on the way to a dominant.

use super::context::Context;
use super::dominant;
use super::step::{degree, flat};
use crate::devices::{Kind, Shape};
use crate::harmony::role::{Role, fourth_above};
use crate::theory::{Degree, Head, Mode, Numeral, Quality};

/// The target of the dominant that a ii leads to, if it leads to one that leads on: ♭VII7
/// that goes home by the back door has no target, and so no ii of one.
pub(crate) fn related_target(root: Degree, context: &Context) -> Option<Degree> {
    let next = Shape::acting(&context.next);
    if next.kind != Kind::Dominant || next.root != fourth_above(root) {
        return None;
    }
    let Some(after) = &context.after else {
        let goal = fourth_above(next.root);
        return Some(if next.root == flat(2) {
            Degree::TONIC
        } else {
            goal
        });
    };
    let from_there = Context {
        mode: context.mode,
        before: Some(Numeral::roman(root, Quality::MINOR_SEVENTH)),
        next: after.clone(),
        after: None,
    };
    dominant::role(&context.next, next.root, &from_there).leads_to()
}

/// The tonic over its fifth before the dominant.
fn is_cadential_six_four(chord: &Numeral, context: &Context) -> bool {
    let next = Shape::acting(&context.next);
    chord.root() == Degree::TONIC
        && chord.sounding_bass() == degree(5)
        && next.root == degree(5)
        && matches!(next.kind, Kind::Dominant | Kind::Suspended)
}

/// ii or IV over the fifth degree: the dominant with its third held back.
pub(crate) fn suspends_dominant(chord: &Numeral) -> bool {
    let root = chord.root();
    let kind = Shape::of(chord).kind;
    chord.sounding_bass() == degree(5)
        && (root == degree(2) || root == degree(4))
        && matches!(kind, Kind::Major | Kind::Minor | Kind::HalfDiminished)
}

/// The degree whose key a numeral is counted in, if it is no dominant or leading tone of
/// that degree and no ii of its dominant.
fn visited_key(chord: &Numeral) -> Option<Degree> {
    match chord.head {
        Head::Roman { root, .. } if !matches!(root.number(), 5 | 7) => {
            chord.target.as_ref().map(|target| target.root())
        }
        Head::Roman { .. }
        | Head::Substitute { .. }
        | Head::AugmentedSixth(_)
        | Head::Neapolitan => None,
    }
}

pub(super) fn minor(chord: &Numeral, root: Degree, context: &Context) -> Role {
    let mode = context.mode;
    if is_cadential_six_four(chord, context) {
        return Role::CadentialSixFour;
    }
    let target = related_target(root, context);
    let replaced = target == Some(Degree::TONIC) && root != degree(2);
    let related = target.filter(|target| *target != Degree::TONIC || replaced);
    if let (None, Some(key)) = (related, visited_key(chord)) {
        return Role::OfKey(key);
    }
    match (root.number(), root.alteration(), mode) {
        (1, 0, Mode::Minor) => Role::Tonic,
        (4, 0, Mode::Minor) | (2, 0, Mode::Major | Mode::Minor) => Role::Subdominant,
        (4, 0, Mode::Major) => Role::MinorSubdominant,
        // vi before II7 is as much vi as it is the ii of V.
        (6, 0, Mode::Major) if related == Some(degree(5)) => Role::TonicSubstitute,
        (3 | 6, 0, Mode::Major) => related.map_or(Role::TonicSubstitute, Role::RelatedTwo),
        (5, 0, Mode::Major | Mode::Minor) => related.map_or(Role::MinorDominant, Role::RelatedTwo),
        (1, 0, Mode::Major) => related.map_or(Role::Borrowed, Role::RelatedTwo),
        _ => related.map_or(Role::Chromatic, Role::RelatedTwo),
    }
}

pub(super) fn major(chord: &Numeral, root: Degree, context: &Context) -> Role {
    if is_cadential_six_four(chord, context) {
        return Role::CadentialSixFour;
    }
    if let Some(key) = visited_key(chord) {
        return Role::OfKey(key);
    }
    let after_dominant = context
        .before
        .as_ref()
        .is_some_and(|before| before.root() == degree(5));
    match (root.number(), root.alteration(), context.mode) {
        (1, 0, Mode::Major | Mode::Minor) => Role::Tonic,
        (4, 0, Mode::Major | Mode::Minor) => Role::Subdominant,
        (5, 0, Mode::Major | Mode::Minor) => Role::Dominant,
        (2, -1, Mode::Major | Mode::Minor) => Role::Neapolitan,
        (3, -1, Mode::Minor) => Role::TonicSubstitute,
        (6, -1, Mode::Minor) if after_dominant => Role::TonicSubstitute,
        (6, -1, Mode::Minor) => Role::Subdominant,
        (7, -1, Mode::Minor) => Role::Subtonic,
        (3 | 6 | 7, -1, Mode::Major) => Role::Borrowed,
        _ => Role::Chromatic,
    }
}

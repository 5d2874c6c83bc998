//! Diminished and half-diminished chords: leading, held or falling.

use super::context::Context;
use super::resting::related_target;
use super::step::steps;
use crate::devices::{Kind, Shape};
use crate::harmony::role::Role;
use crate::theory::{Degree, Mode};

/// A diminished seventh divides the octave, so what it does to the next chord is told by
/// the distance of the roots counted in minor thirds: it leads up to the next root, holds
/// it, or falls to it. Open Music Theory v2, "Common-tone chords".
pub(super) fn full(root: Degree, context: &Context) -> Role {
    let next = &context.next;
    let next_shape = Shape::acting(next);
    let is_home =
        next.root() == Degree::TONIC && matches!(next_shape.kind, Kind::Major | Kind::Minor);
    let on_leading_tone = (root.number(), root.alteration()) == (7, 0);
    if on_leading_tone && (is_home || goes_astray(next_shape)) {
        return Role::LeadingTone;
    }
    if root == next.root() {
        return Role::CommonToneDiminished;
    }
    match steps(next.root(), root) % 3 {
        0 => Role::CommonToneDiminished,
        1 => Role::FallingDiminished,
        _ if is_home => Role::LeadingTone,
        _ => Role::AppliedLeadingTone(next.root()),
    }
}

/// Where the leading-tone chord goes besides home: to V, to vi, in minor to ♭VI.
fn goes_astray(next: Shape) -> bool {
    matches!(
        (next.root.number(), next.root.alteration(), next.kind),
        (5, 0, Kind::Dominant) | (6, 0, Kind::Minor) | (6, -1, Kind::Major)
    )
}

pub(super) fn half(root: Degree, context: &Context) -> Role {
    if let Some(target) = related_target(root, context)
        && target != Degree::TONIC
    {
        return Role::RelatedTwo(target);
    }
    let next = &context.next;
    let goal = if next.sounding_bass() == Degree::new(5, 0) && next.root() == Degree::TONIC {
        next.sounding_bass()
    } else {
        next.root()
    };
    match (root.number(), root.alteration(), context.mode) {
        (2, 0, Mode::Major) => Role::MinorSubdominant,
        (2, 0, Mode::Minor) => Role::Subdominant,
        (7, 0, Mode::Major | Mode::Minor) => Role::LeadingTone,
        (4, 1, Mode::Major | Mode::Minor) if goal == Degree::new(5, 0) => {
            Role::AppliedLeadingTone(goal)
        }
        (4, 1, Mode::Major | Mode::Minor) => Role::SharpFourHalfDiminished,
        (6, 0, Mode::Minor) => Role::TonicSubstitute,
        _ if steps(root, goal) == 1 => Role::AppliedLeadingTone(goal),
        _ => Role::Chromatic,
    }
}

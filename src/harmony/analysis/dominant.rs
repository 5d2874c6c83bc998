//! Dominant sevenths and what looks like them: where they resolve, or would.

use super::context::Context;
use super::step::{can_be_target, degree, flat, steps};
use crate::devices::{Kind, Shape};
use crate::harmony::role::{Role, fourth_above};
use crate::theory::{Degree, Head, IntervalClass, Mode, Numeral, Third};

pub(super) fn role(chord: &Numeral, root: Degree, context: &Context) -> Role {
    match chord.head {
        Head::AugmentedSixth(_) => return augmented_sixth(chord, context),
        Head::Substitute { .. } => return Role::TritoneSubstitute(chord.local_tonic()),
        Head::Roman { .. } | Head::Neapolitan => {}
    }
    if root == degree(5) {
        return match chord.quality().third {
            Third::Fourth | Third::Second => Role::SuspendedDominant,
            Third::Major | Third::Minor | Third::Omitted => Role::Dominant,
        };
    }
    if rests_on_tonic(chord, root, context) {
        return Role::BluesSeventh;
    }
    resolved(root, context).unwrap_or_else(|| unresolved(chord, root, context))
}

/// Whether a seventh chord on the tonic, not written as applied, is the home of the blues:
/// before IV7 if no ii of it has come first, and after IV7 or ♯iv°7 unless it leads to a
/// plain IV.
fn rests_on_tonic(chord: &Numeral, root: Degree, context: &Context) -> bool {
    let next = Shape::acting(&context.next);
    let before = context.before.as_ref().map(Shape::acting);
    let is =
        |shape: Shape, number: u8, kind: Kind| shape.root == degree(number) && shape.kind == kind;
    let is_led = before.is_some_and(|before| is(before, 5, Kind::Minor));
    let leads = is(next, 4, Kind::Major) || is(next, 4, Kind::Minor);
    let comes_back = before.is_some_and(|before| {
        let sharp_four = before.root == Degree::new(4, 1) && before.kind == Kind::Diminished;
        is(before, 4, Kind::Dominant) || sharp_four
    });
    root == Degree::TONIC
        && context.mode == Mode::Major
        && chord.target.is_none()
        && (comes_back && !leads || is(next, 4, Kind::Dominant) && !is_led)
}

/// An augmented sixth opens to the fifth of its key, or holds the root of what follows.
fn augmented_sixth(chord: &Numeral, context: &Context) -> Role {
    let tonic = chord.local_tonic();
    let next = &context.next;
    let to_root_position = next.root() == tonic && next.sounding_bass() == tonic;
    if to_root_position {
        Role::CommonToneAugmentedSixth
    } else {
        Role::AugmentedSixth(tonic.up(IntervalClass::PERFECT_FIFTH))
    }
}

/// The degree that the next chord stands for: 5 where it is the tonic over its fifth.
fn goal(next: &Numeral) -> Degree {
    let root = next.root();
    if root == Degree::TONIC && next.sounding_bass() == degree(5) {
        degree(5)
    } else {
        root
    }
}

fn resolved(root: Degree, context: &Context) -> Option<Role> {
    let mode = context.mode;
    let next = Shape::acting(&context.next);
    let goal = goal(&context.next);
    let falls_by_fifth = steps(root, goal) == 5;
    let falls_by_semitone = steps(goal, root) == 1;
    if root == flat(7) && !falls_by_fifth && !falls_by_semitone {
        return Some(match mode {
            Mode::Major => Role::Backdoor,
            Mode::Minor => Role::Subtonic,
        });
    }
    // The leading-tone chord is nobody's target.
    let is_stable = goal != degree(7) || next.kind != Kind::HalfDiminished;
    if falls_by_fifth && is_stable && can_be_target(goal, mode) {
        return Some(Role::AppliedDominant(goal));
    }
    if falls_by_semitone {
        return Some(Role::TritoneSubstitute(goal));
    }
    let bass = context.next.sounding_bass();
    let is_six_four = bass == context.next.root().up(IntervalClass::PERFECT_FIFTH);
    if is_six_four && steps(bass, root) == 1 {
        return Some(Role::TritoneSubstitute(bass));
    }
    let target = fourth_above(root);
    let after = context.after.as_ref().map(self::goal);
    let rests = matches!(next.kind, Kind::Minor | Kind::HalfDiminished);
    if rests && next.root == root && after == Some(target) {
        // The resolution waits for a minor chord on the same root.
        return Some(Role::AppliedDominant(target));
    }
    if rests && next.root == degree(2) && root == flat(6) {
        // ♭VI7 reaches V by way of ii.
        return Some(Role::TritoneSubstitute(degree(5)));
    }
    let astray = match next.kind {
        Kind::Minor => steps(target, next.root) == 9,
        Kind::Major => steps(target, next.root) == 8,
        Kind::Dominant
        | Kind::HalfDiminished
        | Kind::Diminished
        | Kind::Augmented
        | Kind::Suspended => false,
    };
    // Deceptive: to what would be vi or ♭VI if the target were the tonic.
    (astray && can_be_target(target, mode)).then_some(Role::AppliedDominant(target))
}

/// Named by what it would lead to, or by what it is.
fn unresolved(chord: &Numeral, root: Degree, context: &Context) -> Role {
    let is_triad = chord.quality().seventh.is_none() && chord.target.is_none();
    match (root, context.mode) {
        (root, Mode::Major) if root == Degree::TONIC || root == degree(4) => Role::BluesSeventh,
        (root, Mode::Minor) if root == degree(4) => Role::Subdominant,
        (root, _) if root == flat(2) => Role::TritoneSubstitute(Degree::TONIC),
        // It holds the tonic that follows, as the augmented sixth of the same sound does.
        (root, _) if root == flat(6) && goes_home(context) => Role::CommonToneAugmentedSixth,
        (root, _) if root == flat(6) => Role::TritoneSubstitute(degree(5)),
        (root, _) if steps(root, degree(4)) == 11 => Role::TritoneSubstitute(degree(4)),
        _ if is_triad => Role::Chromatic,
        _ => Role::AppliedDominant(fourth_above(root)),
    }
}

/// Whether the tonic follows on its own root.
fn goes_home(context: &Context) -> bool {
    let next = &context.next;
    next.root() == Degree::TONIC && next.sounding_bass() == Degree::TONIC
}

/// Whether a dominant resolves, in its own way or astray, so that it is named by its
/// target.
pub(crate) fn is_resolved(root: Degree, context: &Context) -> bool {
    resolved(root, context).is_some()
}

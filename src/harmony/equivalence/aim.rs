//! Where an answer says that the chord goes, and whether it goes there.

use crate::devices::{Kind, Shape};
use crate::harmony::analysis::{Context, related_target, role};
use crate::harmony::role::{Role, fourth_above};
use crate::theory::{Degree, Head, IntervalClass, Mode, Numeral};

/// The degree that the writing of a numeral names as its target: 2 in `V7/ii`, the fifth
/// of its key in an augmented sixth. None of a numeral on its own root.
pub(super) fn named_target(numeral: &Numeral) -> Option<Degree> {
    let tonic = numeral.local_tonic();
    match numeral.head {
        Head::AugmentedSixth(_) => Some(tonic.up(IntervalClass::PERFECT_FIFTH)),
        Head::Substitute { .. } => Some(tonic),
        Head::Roman { .. } | Head::Neapolitan => numeral.target.as_ref().map(|_| tonic),
    }
}

/// Whether a chord with this role does what a writing of it says. A dominant leads to the
/// chord named, or is called after it by custom: VI7 is V7/ii wherever it goes (common
/// practice). A ii belongs to the dominant that follows it, if that leads to the chord named
/// (Open Music Theory v2, "ii–V–I"). Any other chord is counted in a key only where the line
/// dwells in it. A seventh that rests, as in the blues, leads nowhere.
pub(super) fn is_apt(writing: &Numeral, chord_role: Role, context: &Context) -> bool {
    let Some(named) = named_target(writing) else {
        return true;
    };
    let is_named = |goal: Option<Degree>| goal.is_some_and(|goal| sound_alike(goal, named));
    if chord_role == Role::BluesSeventh {
        return false;
    }
    if on_degree(writing, 2) {
        let related = matches!(chord_role, Role::RelatedTwo(_)).then(|| chord_role.target());
        return is_named(related.flatten()) || is_named(related_target(writing.root(), context));
    }
    if !is_dominant(writing) {
        return matches!(chord_role, Role::OfKey(key) if sound_alike(key, named));
    }
    let next = &context.next;
    let goals = [
        chord_role.target(),
        chord_role.leads_to(),
        Some(next.root()),
        Some(next.sounding_bass()),
    ];
    let sixth_of_the_tonic = chord_role == Role::CommonToneAugmentedSixth
        && matches!(writing.head, Head::AugmentedSixth(_));
    goals.into_iter().any(is_named)
        || sixth_of_the_tonic
        || (chord_role != Role::Chromatic && is_customary(writing, named, context.mode))
}

/// Whether the writing is that of a dominant of any form.
fn is_dominant(writing: &Numeral) -> bool {
    match writing.head {
        Head::Substitute { .. } | Head::AugmentedSixth(_) => true,
        Head::Roman { .. } => on_degree(writing, 5) || on_degree(writing, 7),
        Head::Neapolitan => false,
    }
}

/// `V7/x` of a degree of the key that has such a dominant in common use.
fn is_customary(writing: &Numeral, named: Degree, mode: Mode) -> bool {
    let place = (named.number(), named.alteration());
    let in_use = match mode {
        Mode::Major => matches!(place, (2..=6, 0)),
        Mode::Minor => matches!(place, (4 | 5, 0) | (3 | 6, -1)),
    };
    in_use && on_degree(writing, 5)
}

fn on_degree(numeral: &Numeral, number: u8) -> bool {
    matches!(numeral.head, Head::Roman { root, .. } if root == Degree::new(number, 0))
}

/// Whether an answer is a dominant, of whatever form, of the degree that the chord leads
/// to: vii°7/ii, ♯i°7 or subV7/ii for V7/ii.
pub(super) fn has_right_target(answer: &Numeral, chord_role: Role, context: &Context) -> bool {
    chord_role
        .leads_to()
        .is_some_and(|goal| leads_to(answer, goal, context))
}

/// Whether an answer is of another target than this.
pub(super) fn misses(answer: &Numeral, target: Degree, context: &Context) -> bool {
    match named_target(answer) {
        Some(named) => !sound_alike(named, target),
        None => {
            role(answer, context).target() != Some(target) && !leads_to(answer, target, context)
        }
    }
}

/// Whether an answer says of itself that it leads to a degree: by what it names, or else by
/// where it would go from here and where its like goes by custom.
fn leads_to(answer: &Numeral, goal: Degree, context: &Context) -> bool {
    if let Some(named) = named_target(answer) {
        return is_dominant(answer) && sound_alike(named, goal);
    }
    let Shape { root, kind } = Shape::acting(answer);
    let by_custom = match kind {
        Kind::Dominant => Some(fourth_above(root)),
        Kind::Diminished => Some(root.up(IntervalClass::MINOR_SECOND)),
        Kind::Major | Kind::Minor | Kind::HalfDiminished | Kind::Augmented | Kind::Suspended => {
            None
        }
    };
    let from_here = role(answer, context).leads_to();
    [by_custom, from_here]
        .into_iter()
        .flatten()
        .any(|degree| sound_alike(degree, goal))
}

fn sound_alike(one: Degree, other: Degree) -> bool {
    one.interval().chromatic() == other.interval().chromatic()
}

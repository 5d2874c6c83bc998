//! Steps to and from chords outside the key, weighed by what the chords are.

use super::chord::Chord;
use crate::devices::Kind;
use crate::theory::Degree;

/// Chromatic steps up from one root to the other, 0 to 11.
fn up(from: &Chord, to: &Chord) -> i32 {
    (to.step - from.step).rem_euclid(12)
}

/// Whether nobody writes the step, though each of its chords may stand elsewhere: the seventh
/// on 1 that has the leading tone of IV falls to no minor chord and no seventh chord there,
/// the minor subdominant does not brighten again, V does not slip to the chord above home.
pub(super) fn is_abrupt(from: &Chord, to: &Chord) -> bool {
    let target = from.numeral.target.as_ref();
    match (from.shape.kind, from.step, to.shape.kind, to.step) {
        (Kind::Dominant, 0, Kind::Minor, 5) => {
            target.is_some_and(|target| Kind::of(target.quality()) == Kind::Major)
        }
        (Kind::Dominant, 0, Kind::Dominant, 5) => target.is_some(),
        (Kind::Minor, 5, Kind::Major, 5) | (Kind::Dominant, 7, Kind::Major, 1) => true,
        _ => false,
    }
}

/// From a chord outside the key: where it resolves or goes on.
pub(super) fn leave(from: &Chord, to: &Chord) -> f64 {
    let up = up(from, to);
    let home = to.is_home();
    let to_five = to.step == 7 && to.shape.kind == Kind::Dominant;
    match (from.shape.kind, from.step) {
        // A tonic over its fifth is on its way to the dominant.
        (Kind::Major | Kind::Minor, 0) if from.inverted => match to.step {
            7 => 5.0,
            2 | 9 => 1.0,
            5 => 0.7,
            _ => 0.0,
        },
        (Kind::Dominant, 7) => match to.step {
            0 => 8.0,
            9 | 8 => 0.8,
            4 | 3 => 0.4,
            _ => 0.0,
        },
        (Kind::Dominant, 10) if home => 4.0,
        // Nothing resolves to a chord that is itself diminished.
        (Kind::Dominant, _) if matches!(to.shape.kind, Kind::HalfDiminished | Kind::Diminished) => {
            0.0
        }
        (Kind::Dominant, _) if up == 5 => 6.0,
        (Kind::Dominant, _) if up == 11 => 2.0,
        (Kind::Dominant, _) => 0.0,
        (Kind::Diminished, _) if up == 1 => 4.0,
        (Kind::Diminished, 0) if home => 2.0,
        // The bass that has climbed to sharp 4 goes on to 5.
        (Kind::Diminished, 6) if home && to.numeral.sounding_bass() == Degree::new(5, 0) => 2.0,
        (Kind::Diminished, _) if up == 11 && to.shape.kind == Kind::Minor => 2.0,
        (Kind::Diminished, _) => 0.0,
        (Kind::HalfDiminished, 6) => match to.step {
            5 => 1.0,
            7 | 11 => 1.5,
            _ => 0.0,
        },
        (Kind::HalfDiminished, 11) if home => 1.5,
        (Kind::HalfDiminished, _) if up == 5 && to.shape.kind == Kind::Dominant => 5.0,
        (Kind::HalfDiminished, _) => 0.0,
        (Kind::Augmented, _) if up == 5 || up == 9 => 3.0,
        (Kind::Augmented, _) => 0.0,
        (Kind::Suspended, _) if up == 0 || up == 5 => 3.0,
        (Kind::Suspended, _) => 0.3,
        (Kind::Minor, 5) if home => 3.0,
        (Kind::Minor, 7) if to.step == 5 || to.step == 2 => 1.5,
        // The minor dominant has given the leading tone up; V does not take it back at once.
        (Kind::Minor, 7) if to.step == 7 => 0.0,
        (Kind::Minor, _) if up == 5 => 2.0,
        (Kind::Minor, _) if home || to_five => 1.0,
        (Kind::Minor, _) => 0.2,
        // Borrowed and chromatic major chords.
        (Kind::Major, 8) if to_five => 2.5,
        (Kind::Major, 8) if matches!(to.step, 2 | 5 | 10) => 1.2,
        (Kind::Major, 1) if to_five || home => 2.0,
        (Kind::Major, 10) if home || to.step == 5 => 2.0,
        (Kind::Major, _) if up == 5 => 2.0,
        (Kind::Major, _) if home || to_five || to.step == 2 => 0.8,
        (Kind::Major, _) => 0.2,
    }
}

/// From a chord of the key to one outside it.
pub(super) fn approach(from: &Chord, to: &Chord) -> f64 {
    let up = up(from, to);
    let tonic = from.step == 0 && !from.inverted;
    if from.shape.kind == Kind::Dominant && from.inverted {
        // The bass has the leading tone, which goes home.
        return if up == 5 && to.is_home() { 5.0 } else { 0.0 };
    }
    if from.shape.kind == Kind::Dominant {
        // The dominant goes astray only to take the tonic's place or to prepare it.
        return match (to.shape.kind, up) {
            (Kind::Major | Kind::Minor, 5) => 5.0,
            (Kind::Dominant, 6 | 9) | (Kind::Diminished, 1) => 0.6,
            (Kind::Major, 1) => 0.6,
            _ => 0.0,
        };
    }
    match to.shape.kind {
        Kind::Dominant if tonic || up == 5 => 3.0,
        Kind::Dominant if up == 0 => 1.5,
        Kind::Dominant if from.shape.kind == Kind::Major => 1.2,
        Kind::Dominant => 0.5,
        Kind::Diminished if matches!(up, 0 | 1 | 11) => 3.0,
        Kind::Diminished if tonic => 0.8,
        Kind::Diminished => 0.1,
        Kind::HalfDiminished if tonic || up == 0 => 2.0,
        Kind::HalfDiminished => 0.7,
        Kind::Minor if tonic || up == 0 => 2.0,
        // The minor dominant comes from home or from above.
        Kind::Minor if to.step == 7 => match from.step {
            5 | 9 => 0.8,
            _ => 0.05,
        },
        Kind::Minor if to.step == 5 && up == 3 => 1.2,
        Kind::Minor if up == 5 => 1.0,
        Kind::Minor => 0.5,
        Kind::Major if tonic || from.shape.kind == Kind::Major => 1.5,
        Kind::Major => 0.5,
        // A suspended or augmented dominant, a tonic over its fifth: prepared like V.
        Kind::Augmented | Kind::Suspended if up == 5 || tonic => 2.0,
        Kind::Augmented | Kind::Suspended => 0.4,
    }
}

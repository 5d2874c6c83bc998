//! Reads what each chord of a line does, from the chord and the one that follows it.

use super::role::{Role, fourth_above};
use crate::devices::{Kind, Shape};
use crate::theory::{Degree, Head, Line, Mode, Numeral};

/// The role of every chord of a line. The line is taken to turn back: what follows the
/// last chord is the first.
#[must_use]
pub fn roles(line: &Line, mode: Mode) -> Vec<Role> {
    let numerals: Vec<&Numeral> = line.numerals().collect();
    (0..numerals.len())
        .map(|slot| {
            let next = numerals.get(slot + 1).or(numerals.first()).copied();
            role(numerals[slot], next.unwrap_or(numerals[slot]), mode)
        })
        .collect()
}

/// The role of a chord that goes to `next`.
#[must_use]
pub fn role(chord: &Numeral, next: &Numeral, mode: Mode) -> Role {
    let shape = Shape::acting(chord);
    let next_shape = Shape::acting(next);
    match shape.kind {
        Kind::Dominant => dominant(chord, shape.root, next_shape, mode),
        Kind::Diminished => diminished(shape.root, next, mode),
        Kind::HalfDiminished => half_diminished(shape.root, next_shape, mode),
        Kind::Minor => minor(shape.root, next_shape, mode),
        Kind::Major | Kind::Suspended => major(shape.root, mode),
        Kind::Augmented if shape.root == Degree::TONIC => Role::Tonic,
        Kind::Augmented => dominant(chord, shape.root, next_shape, mode),
    }
}

const fn degree(number: u8) -> Degree {
    Degree::new(number, 0)
}

const fn flat(number: u8) -> Degree {
    Degree::new(number, -1)
}

/// Chromatic steps from one degree up to another, 0 to 11, whatever the spelling.
fn steps(from: Degree, to: Degree) -> i32 {
    (to.interval().chromatic() - from.interval().chromatic()).rem_euclid(12)
}

/// Whether chords on this degree belong to the key or are borrowed from its parallel.
fn can_be_target(target: Degree, mode: Mode) -> bool {
    let fifths = target.interval().fifths();
    match mode {
        Mode::Major => (-5..=5).contains(&fifths),
        Mode::Minor => (-5..=2).contains(&fifths) || fifths == 5,
    }
}

fn dominant(chord: &Numeral, root: Degree, next: Shape, mode: Mode) -> Role {
    let falls_by_fifth = next.root == fourth_above(root);
    let falls_by_semitone = steps(next.root, root) == 1;
    if let Head::Substitute { .. } | Head::AugmentedSixth(_) = chord.head {
        return Role::TritoneSubstitute(chord.local_tonic());
    }
    if root == degree(5) {
        return Role::Dominant;
    }
    if root == flat(7) && !falls_by_fifth && !falls_by_semitone && mode == Mode::Major {
        return Role::Backdoor;
    }
    if falls_by_fifth && can_be_target(next.root, mode) {
        return applied(next.root, root);
    }
    if falls_by_semitone {
        return Role::TritoneSubstitute(next.root);
    }
    if matches!((root, mode), (r, Mode::Major) if r == Degree::TONIC || r == degree(4)) {
        return Role::BluesSeventh;
    }
    // Not resolved: named by what it would lead to.
    let unresolved = [
        (flat(2), 1),
        (flat(6), 5),
        (Degree::new(4, 1), 4),
        (flat(5), 4),
    ];
    if let Some((_, target)) = unresolved
        .iter()
        .find(|(substitute, _)| *substitute == root)
    {
        return Role::TritoneSubstitute(degree(*target));
    }
    applied(fourth_above(root), root)
}

fn applied(target: Degree, root: Degree) -> Role {
    if target == Degree::TONIC && root == degree(5) {
        Role::Dominant
    } else {
        Role::AppliedDominant(target)
    }
}

fn diminished(root: Degree, next: &Numeral, mode: Mode) -> Role {
    let next_root = next.root();
    let home = next_root == Degree::TONIC;
    if root == degree(7) && (home || mode == Mode::Minor) {
        return Role::LeadingTone;
    }
    if steps(root, next_root) == 1 {
        return Role::AppliedLeadingTone(next_root);
    }
    let sharp_four = steps(root, degree(4)) == 11;
    if root == next_root || (sharp_four && (home || next.sounding_bass() == degree(5))) {
        return Role::CommonToneDiminished;
    }
    if steps(next_root, root) == 1 {
        return Role::FallingDiminished;
    }
    // Enharmonic readings: one of the four notes leads to the next root or is held in it.
    match (0..4)
        .map(|third| (steps(root, next_root) + 3 * third) % 12)
        .min()
    {
        Some(0) => Role::CommonToneDiminished,
        Some(1) => Role::AppliedLeadingTone(next_root),
        Some(_) | None => Role::FallingDiminished,
    }
}

fn half_diminished(root: Degree, next: Shape, mode: Mode) -> Role {
    if let Some(target) = related_target(root, next)
        && target != Degree::TONIC
    {
        return Role::RelatedTwo(target);
    }
    match (root.number(), root.alteration(), mode) {
        (2, 0, Mode::Major) => Role::MinorSubdominant,
        (2, 0, Mode::Minor) => Role::Subdominant,
        (7, 0, Mode::Major | Mode::Minor) => Role::LeadingTone,
        (4, 1, Mode::Major | Mode::Minor) => Role::SharpFourHalfDiminished,
        (6, 0, Mode::Minor) => Role::TonicSubstitute,
        _ => Role::Chromatic,
    }
}

/// The target of the dominant that a ii leads to, if it leads to one.
fn related_target(root: Degree, next: Shape) -> Option<Degree> {
    (next.kind == Kind::Dominant && next.root == fourth_above(root))
        .then(|| fourth_above(next.root))
}

fn minor(root: Degree, next: Shape, mode: Mode) -> Role {
    let related = related_target(root, next).filter(|target| *target != Degree::TONIC);
    match (root.number(), root.alteration(), mode) {
        (1, 0, Mode::Minor) => Role::Tonic,
        (4, 0, Mode::Minor) | (2, 0, Mode::Major | Mode::Minor) => Role::Subdominant,
        (4, 0, Mode::Major) => Role::MinorSubdominant,
        (6, 0, Mode::Major) => related.map_or(Role::TonicSubstitute, |target| {
            // vi before II7 is as much vi as it is the ii of V.
            if target == degree(5) {
                Role::TonicSubstitute
            } else {
                Role::RelatedTwo(target)
            }
        }),
        (3, 0, Mode::Major) => related.map_or(Role::TonicSubstitute, Role::RelatedTwo),
        (5, 0, Mode::Major | Mode::Minor) => related.map_or(Role::MinorDominant, Role::RelatedTwo),
        (1, 0, Mode::Major) => related.map_or(Role::Borrowed, Role::RelatedTwo),
        _ => related.map_or(Role::Chromatic, Role::RelatedTwo),
    }
}

fn major(root: Degree, mode: Mode) -> Role {
    match (root.number(), root.alteration(), mode) {
        (1, 0, Mode::Major | Mode::Minor) => Role::Tonic,
        (4, 0, Mode::Major | Mode::Minor) => Role::Subdominant,
        (5, 0, Mode::Major | Mode::Minor) => Role::Dominant,
        (2, -1, Mode::Major | Mode::Minor) => Role::Neapolitan,
        (3, -1, Mode::Minor) => Role::TonicSubstitute,
        (6, -1, Mode::Minor) => Role::Subdominant,
        (7, -1, Mode::Minor) => Role::AppliedDominant(flat(3)),
        (3 | 6 | 7, -1, Mode::Major) => Role::Borrowed,
        _ => Role::Chromatic,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theory::{BareSix, Meter, Notation};

    fn words(mode: Mode, text: &str) -> Vec<String> {
        let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        roles(&line, mode)
            .into_iter()
            .map(|role| role.words(mode, Notation::Text))
            .collect()
    }

    #[test]
    fn applied_dominants_are_named_by_their_targets() {
        // Open Music Theory v1, "Applied chords"; Hutchinson, "Secondary Dominants".
        assert_eq!(
            words(
                Mode::Major,
                "I V7/ii ii7 V7/V V7 V7/vi vi7 V7/IV IV V7/iii iii7"
            ),
            [
                "tonic",
                "dominant of ii",
                "subdominant",
                "dominant of V",
                "dominant",
                "dominant of vi",
                "tonic substitute",
                "dominant of IV",
                "subdominant",
                "dominant of iii",
                "tonic substitute",
            ]
        );
    }

    #[test]
    fn the_same_notes_are_read_by_their_resolution() {
        // A diminished seventh holds or leads according to where it goes: Open Music
        // Theory v2, "Common-tone chords".
        for (line, role) in [
            ("#ivo7 V7", "leading-tone chord of V"),
            ("#ivo7 I/5", "common-tone diminished seventh"),
            ("biiio7 ii7", "falling diminished seventh"),
            ("#iio7 iii7", "leading-tone chord of iii"),
            ("#io7 ii7", "leading-tone chord of ii"),
            ("Io7 I", "common-tone diminished seventh"),
            ("bVII7 I", "backdoor dominant"),
            ("bVII7 bIII", "dominant of bIII"),
            ("bVII7 VI7", "tritone substitute, leading to VI"),
            ("bVI7 V7", "tritone substitute, leading to V"),
            ("bII7 I", "tritone substitute of the dominant"),
            ("iv7 I", "minor subdominant"),
            ("iiø7 V7", "minor subdominant"),
            ("viiø7 III7", "related ii of vi"),
            ("v7 I7", "related ii of IV"),
            ("iii7 VI7", "related ii of ii"),
        ] {
            let found = words(Mode::Major, line);
            let role = role.replace("to VI", "to vi");
            assert_eq!(found[0], role, "{line}");
        }
    }

    #[test]
    fn minor_keys_have_their_own_home() {
        assert_eq!(
            words(Mode::Minor, "i bVI iiø7 V7 i"),
            ["tonic", "subdominant", "subdominant", "dominant", "tonic"]
        );
    }
}

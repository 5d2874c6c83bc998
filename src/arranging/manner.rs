//! In what manner chords are taken: by how many voices, and by which hand.

use super::fretboard::can_hold;
use super::palette::Palette;
use crate::theory::Member;

/// What the root costs in a shell that has it in the bass, in quarters of a semitone of
/// motion: the fifth is better unless it breaks the line, for a minor third without it is as
/// well the top of the major chord below.
const SECOND_ROOT: i32 = 32;

/// A way to take the chords of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Manner {
    /// Every note of the chord in three upper voices, more if it has more.
    Full,
    /// Only what tells the chord: third, seventh, and whatever else is particular to it.
    Shell,
    /// As one hand can hold it on a guitar's six strings.
    Guitar,
}

impl Manner {
    /// What the upper voices may take from a chord.
    pub(super) fn restrict(self, mut palette: Palette) -> Palette {
        match self {
            Self::Full | Self::Guitar => {}
            Self::Shell => {
                // A triad in root position has but its third to tell; its fifth stays, or
                // its root where a leading tone asks for it. Over a bass of another chord,
                // which would take its place, the fifth stays in any case.
                let is_bare = palette.need() < 2;
                let is_foreign = palette.bass_member.is_none();
                for ingredient in &mut palette.ingredients {
                    let fifth = ingredient.member == Member::Fifth && (is_bare || is_foreign);
                    let root = ingredient.member == Member::Root && is_bare && !is_foreign;
                    let most = usize::from(ingredient.required || fifth || root);
                    ingredient.most = ingredient.most.min(most);
                    ingredient.required |= fifth && is_foreign && ingredient.most > 0;
                    if root {
                        ingredient.doubling += SECOND_ROOT;
                    }
                    ingredient.omission = 0;
                }
            }
        }
        palette
    }

    /// How many upper voices a line has if its chords and their leading allow it.
    pub(super) fn voices(self) -> usize {
        match self {
            Self::Full | Self::Guitar => 3,
            Self::Shell => 2,
        }
    }

    /// Whether a bass and upper voices can be taken together.
    pub(super) fn can_take(self, bass: i32, upper: &[i8]) -> bool {
        match self {
            Self::Full | Self::Shell => true,
            Self::Guitar => can_hold(bass, upper),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arranging::voicing::candidates;
    use crate::arranging::{BASS, bass};
    use crate::theory::{Chord, Key, Numeral};

    const CHORDS: [&str; 26] = [
        "I", "Iadd6", "Imaj7", "I+", "i", "iadd6", "i7", "imaj7", "ii", "ii7", "iiø7", "iv7", "V",
        "V7", "V7sus4", "V7b9", "V9", "V13", "V7#9", "V7b5", "vi7", "viio", "viio7", "Fr6", "Ger6",
        "It6",
    ];

    /// Chords in every key over each of their own notes.
    fn each_inversion(mut check: impl FnMut(&str, &Palette, i32)) {
        for text in CHORDS {
            let numeral: Numeral = text.parse().expect("a numeral");
            for key in Key::everyday() {
                let chord = Chord::new(&numeral, key).expect("a chord near the key");
                for degree in numeral.degrees() {
                    let inverted = Numeral {
                        bass: Some(degree),
                        ..numeral.clone()
                    };
                    let Ok(inverted) = Chord::new(&inverted, chord.key()) else {
                        continue;
                    };
                    let bass = bass::line(&[inverted.bass()], &BASS, || 0)[0].midi();
                    check(text, &Palette::new(&inverted), bass);
                }
            }
        }
    }

    #[test]
    fn a_hand_holds_every_ordinary_chord() {
        // Beyond a hand at the pitch of this bass: ninths and thirteenths that are inverted,
        // the fullest thirteenth, and two inversions of the minor chord with major seventh.
        let wide = ["imaj7", "V7b9", "V9", "V7#9", "V13"];
        each_inversion(|text, palette, bass| {
            let inverted = palette.root != palette.bass;
            if text == "V13" || inverted && wide.contains(&text) {
                return;
            }
            for voices in [3, 4] {
                for taken in candidates(palette, bass, voices, 67, Manner::Guitar) {
                    assert!(can_hold(bass, taken.midi()), "{text} over {}", palette.bass);
                }
            }
        });
    }

    #[test]
    fn a_shell_is_what_tells_the_chord() {
        each_inversion(|text, palette, bass| {
            let shell = Manner::Shell.restrict(palette.clone());
            for taken in candidates(&shell, bass, 2, 67, Manner::Shell) {
                let members = |taken: usize| palette.ingredients[taken].member;
                let taken: Vec<Member> = taken
                    .notes()
                    .iter()
                    .map(|note| members(usize::from(*note)))
                    .collect();
                assert!(taken.len() >= 2 || palette.need() < 2, "{text}: {taken:?}");
                for ingredient in palette.ingredients.iter().filter(|one| one.required) {
                    assert!(taken.contains(&ingredient.member), "{text}: {taken:?}");
                }
            }
        });
    }
}

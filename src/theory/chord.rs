//! A chord: a numeral in a key, with spelled notes.

use std::fmt;

use super::degree::Degree;
use super::key::{Key, Mode};
use super::notation::Notation;
use super::numeral::{AugmentedSixth, Head, Numeral};
use super::pitch::{IntervalClass, PitchClass};
use super::quality::{Fifth, Member, Quality};
use super::symbol::Symbol;

/// A note of a chord and what it is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tone {
    /// Its pitch class, spelled.
    pub class: PitchClass,
    /// What it is in the chord.
    pub member: Member,
}

/// A numeral in a key, spelled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chord {
    numeral: Numeral,
    key: Key,
    tones: Vec<Tone>,
    bass: PitchClass,
}

/// Why a numeral has no notes in a key: one of them would need more than three accidentals.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TooRemote {
    /// The numeral that cannot be spelled.
    pub numeral: Numeral,
    /// The key it was to be spelled in.
    pub key: Key,
}

impl fmt::Display for TooRemote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "`{}` in {} has a note with more than three accidentals; expected a chord nearer to the key",
            self.numeral, self.key
        )
    }
}

impl std::error::Error for TooRemote {}

impl Chord {
    /// Spells a numeral in a key.
    ///
    /// In minor a bass written `/3`, `/6` or `/7` means the minor degree where only that
    /// one belongs to the chord.
    ///
    /// # Errors
    /// If a note would need more than three accidentals.
    pub fn new(numeral: &Numeral, key: Key) -> Result<Self, TooRemote> {
        let mut numeral = numeral.clone();
        if let Some(bass) = numeral.bass {
            numeral.bass = Some(bass_in_mode(&numeral, bass, key.mode()));
        }
        let tone = |degree: Degree, member| Tone {
            class: key.note(degree),
            member,
        };
        let root = numeral.root();
        let tones: Vec<Tone> = match numeral.head {
            Head::AugmentedSixth(_) => {
                let members = [Member::Root, Member::Third, Member::Fifth, Member::Seventh];
                let degrees = numeral.degrees();
                // The Italian sixth has three notes: no fifth above the flat sixth degree.
                let members = if degrees.len() == 3 {
                    vec![Member::Root, Member::Third, Member::Seventh]
                } else {
                    members.to_vec()
                };
                degrees
                    .into_iter()
                    .zip(members)
                    .map(|(d, m)| tone(d, m))
                    .collect()
            }
            Head::Roman { .. } | Head::Substitute { .. } | Head::Neapolitan => numeral
                .quality()
                .members()
                .into_iter()
                .map(|(m, i)| tone(root.up(i), m))
                .collect(),
        };
        let bass = key.note(numeral.sounding_bass());
        let spelled = tones.iter().map(|tone| tone.class).chain([bass]);
        if spelled
            .into_iter()
            .any(|class| class.alteration().abs() > 3)
        {
            return Err(TooRemote { numeral, key });
        }
        Ok(Self {
            numeral,
            key,
            tones,
            bass,
        })
    }

    /// The numeral that was spelled.
    #[must_use]
    pub fn numeral(&self) -> &Numeral {
        &self.numeral
    }

    /// The key it was spelled in.
    #[must_use]
    pub fn key(&self) -> Key {
        self.key
    }

    /// The chord's own notes, root first. A foreign bass note is not among them.
    #[must_use]
    pub fn tones(&self) -> &[Tone] {
        &self.tones
    }

    /// The root, spelled.
    #[must_use]
    pub fn root(&self) -> PitchClass {
        self.key.note(self.numeral.root())
    }

    /// The lowest note, spelled: the root if no other bass is written.
    #[must_use]
    pub fn bass(&self) -> PitchClass {
        self.bass
    }

    /// Every note that sounds: the bass first if it is foreign to the chord.
    #[must_use]
    pub fn notes(&self) -> Vec<PitchClass> {
        let own = self.tones.iter().map(|tone| tone.class);
        let foreign = own.clone().all(|class| class != self.bass);
        foreign
            .then_some(self.bass)
            .into_iter()
            .chain(own)
            .collect()
    }

    /// The note that a member of the chord is.
    #[must_use]
    pub fn member(&self, member: Member) -> Option<PitchClass> {
        self.tones
            .iter()
            .find(|tone| tone.member == member)
            .map(|tone| tone.class)
    }

    /// The chord symbol, such as `Cm6` or `G/D`.
    #[must_use]
    pub fn symbol(&self) -> Symbol {
        Symbol::new(self.root(), self.symbol_quality(), self.bass)
    }

    /// The French sixth has a lowered fifth above its bass: `Ab7b5`. The Italian one has
    /// none, which no symbol says, so it is written like the German.
    fn symbol_quality(&self) -> Quality {
        let quality = self.numeral.quality();
        match self.numeral.head {
            Head::AugmentedSixth(AugmentedSixth::French) => Quality {
                fifth: Fifth::Diminished,
                ..quality
            },
            Head::AugmentedSixth(
                AugmentedSixth::Italian | AugmentedSixth::German | AugmentedSixth::Swiss,
            )
            | Head::Roman { .. }
            | Head::Substitute { .. }
            | Head::Neapolitan => quality,
        }
    }

    /// The symbol as a player would write it, in a notation.
    #[must_use]
    pub fn written(&self, notation: Notation) -> String {
        self.symbol().as_played(self.key).written(notation)
    }
}

fn bass_in_mode(numeral: &Numeral, bass: Degree, mode: Mode) -> Degree {
    let lowered = bass.up(IntervalClass::from_fifths(-7));
    let own = numeral.degrees();
    let means_lowered = mode == Mode::Minor
        && bass.alteration() == 0
        && matches!(bass.number(), 3 | 6 | 7)
        && !own.contains(&bass)
        && own.contains(&lowered);
    if means_lowered { lowered } else { bass }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chord(numeral: &str, key: &str) -> Result<Chord, TooRemote> {
        let key = key.parse().unwrap_or_else(|error| panic!("{error}"));
        let numeral = numeral.parse().unwrap_or_else(|error| panic!("{error}"));
        Chord::new(&numeral, key)
    }

    fn spelled(numeral: &str, key: &str) -> String {
        let chord = chord(numeral, key).unwrap_or_else(|error| panic!("{error}"));
        let notes: Vec<String> = chord.notes().iter().map(ToString::to_string).collect();
        format!("{} over {}", notes.join(" "), chord.bass())
    }

    #[test]
    fn a_note_has_three_accidentals_and_no_more() {
        assert_eq!(spelled("##I", "C#"), "C### E### G### over C###");
        assert_eq!(spelled("bbI", "Cb"), "Cbbb Ebbb Gbbb over Cbbb");
        for (numeral, key) in [("##I+", "C#"), ("bbi", "Cb"), ("i/##7", "A#m")] {
            let error = chord(numeral, key).expect_err(numeral);
            assert!(error.to_string().contains("more than three accidentals"));
        }
    }

    #[test]
    fn a_bass_in_minor_is_the_chords_own_degree() {
        for (numeral, key, notes) in [
            ("i/3", "Am", "A C E over C"),
            ("bVI/6", "Am", "F A C over F"),
            ("bIII/7", "Am", "C E G over G"),
            ("V/7", "Am", "E G# B over G#"),
            // Neither is a note of the chord: the degree as it is written.
            ("V/3", "Am", "C# E G# B over C#"),
            ("i/2", "Am", "B A C E over B"),
            ("i/3", "A", "C# A C E over C#"),
        ] {
            assert_eq!(spelled(numeral, key), notes, "{numeral} in {key}");
        }
    }

    #[test]
    fn augmented_sixths_are_written_as_the_dominants_that_they_sound_like() {
        // Spelled as every handbook of theory spells them.
        for (numeral, notes, symbol) in [
            ("It6", "Ab C F# over Ab", "Ab7"),
            ("Ger6", "Ab C Eb F# over Ab", "Ab7"),
            ("Fr6", "Ab C D F# over Ab", "Ab7b5"),
        ] {
            let chord = chord(numeral, "C").expect("it is near");
            assert_eq!(spelled(numeral, "C"), notes);
            assert_eq!(chord.written(Notation::Text), symbol, "{numeral}");
        }
    }

    #[test]
    fn members_are_found_by_what_they_are() {
        let italian = chord("It6", "C").expect("it is near");
        let names = |chord: &Chord| {
            [Member::Root, Member::Third, Member::Fifth, Member::Seventh]
                .map(|member| chord.member(member).map(|note| note.to_string()))
        };
        let some = |name: &str| Some(name.to_owned());
        assert_eq!(names(&italian), [some("Ab"), some("C"), None, some("F#")]);
        let dominant = chord("V7", "C").expect("it is near");
        assert_eq!(names(&dominant), ["G", "B", "D", "F"].map(some));
    }
}

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
    pub class: PitchClass,
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
    pub numeral: Numeral,
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

    #[must_use]
    pub fn numeral(&self) -> &Numeral {
        &self.numeral
    }

    #[must_use]
    pub fn key(&self) -> Key {
        self.key
    }

    /// The chord's own notes, root first. A foreign bass note is not among them.
    #[must_use]
    pub fn tones(&self) -> &[Tone] {
        &self.tones
    }

    #[must_use]
    pub fn root(&self) -> PitchClass {
        self.key.note(self.numeral.root())
    }

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

    /// The symbol in a notation.
    #[must_use]
    pub fn written(&self, notation: Notation) -> String {
        self.symbol().written(notation)
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

//! Numerals as RomanText writes them. Owns that writing and what it means in a mode;
//! gives our [`Numeral`], which knows neither figured bass nor scales.
//!
//! RomanText (Tymoczko, Gotham, Cuthbert and Ariza, 2019) is the plain-text format of
//! scholarly analyses. It differs from the numerals of this house in four ways:
//!
//! - Figures tell the bass: `V65`, `V6/5` and `I6` are inversions, never added notes.
//! - Degrees are those of the mode's scale. On six and seven of minor the quality tells
//!   which is meant: `VI` and `VII` are the lowered ones, `vi` and `viio` the raised;
//!   `bVI` and `#vi` say the same with caution.
//! - Sevenths and ninths are the scale's, unless `o`, `ø` or `d` says otherwise: `bVII7`
//!   has a major seventh in major, `VII7` a minor one in minor.
//! - Brackets leave notes out, add and alter: `V[no3]`, `IV[add6]`, `V7[b5]`.

mod brackets;
mod error;
mod meaning;
mod syntax;

pub use error::{RomanTextError, RomanTextExpected};

use super::chord::{Chord, TooRemote};
use super::key::{Key, Mode};
use super::numeral::Numeral;
use super::pitch::PitchClass;
use super::quality::Member;

/// A numeral of a RomanText analysis.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RomanText {
    /// The whole chord, nothing left out.
    pub numeral: Numeral,
    /// Notes of the chord that do not sound: `[no3]`. What it does stays the same.
    pub omitted: Vec<Member>,
}

impl RomanText {
    /// Reads a numeral of a passage in `mode`: `V6/5/ii`, `viio7`, `Cad64`, `IV[no5]`.
    ///
    /// The enharmonic German sixth (`Sw`) becomes the German one that it sounds like. A
    /// slash at the end, which some analysts leave behind, is passed over.
    ///
    /// # Errors
    /// With the bytes that could not be read or that name no chord, and what was
    /// expected there.
    pub fn read(text: &str, mode: Mode) -> Result<Self, RomanTextError> {
        let written = syntax::read(text)?;
        let (numeral, omitted) =
            meaning::chord(&written, mode).map_err(|fault| RomanTextError {
                text: text.to_owned(),
                at: fault.at,
                expected: fault.expected,
            })?;
        Ok(Self { numeral, omitted })
    }

    /// Every note that sounds in a key, the bass first if it does.
    ///
    /// # Errors
    /// If a note of the chord would need more than three accidentals.
    pub fn notes(&self, key: Key) -> Result<Vec<PitchClass>, TooRemote> {
        let chord = Chord::new(&self.numeral, key)?;
        let silent: Vec<PitchClass> = self
            .omitted
            .iter()
            .filter_map(|member| chord.member(*member))
            .collect();
        let bass = [chord.bass()];
        let above = chord.tones().iter().map(|tone| tone.class);
        let mut notes = Vec::new();
        for note in bass.into_iter().chain(above) {
            if !silent.contains(&note) && !notes.contains(&note) {
                notes.push(note);
            }
        }
        Ok(notes)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn the_mode_decides_what_a_numeral_means() {
        // Each as our numeral in a major and in a minor key.
        for (written, major, minor) in [
            ("I", "I", "I"),
            ("V6/5", "V7/7", "V7/7"),
            ("V65/V", "V7/V/#4", "V7/V/#4"),
            ("VI", "VI", "bVI"),
            ("vi", "vi", "vi"),
            ("bVI", "bVI", "bVI"),
            ("#vi", "#vi", "vi"),
            ("VII7", "VII7", "bVII7"),
            ("bVII7", "bVIImaj7", "bVII7"),
            ("III", "III", "bIII"),
            ("III+6", "III+/#5", "bIII+/5"),
            ("viio7", "viio7", "viio7"),
            ("viio6", "viio/2", "viio/2"),
            ("vii/o7", "viiø7", "viiø7"),
            ("iiø65", "iiø7/4", "iiø7/4"),
            ("I7", "Imaj7", "I7"),
            ("IId7", "II7", "II7"),
            ("V9", "V9", "V7b9"),
            ("IV11", "IVmaj9#11", "IV11"),
            ("V/III", "V/III", "V/bIII"),
            ("V7/vi", "V7/vi", "V7/vi"),
            ("Cad64", "I/5", "i/5"),
            ("Ger65", "Ger6", "Ger6"),
            ("It", "It6", "It6"),
            ("Fr43/V", "Fr6/V", "Fr6/V"),
            ("Ger7", "Ger6/#4", "Ger6/#4"),
            ("N6", "N6", "N6"),
            ("N53", "bII", "bII"),
            ("V54", "Vsus4", "Vsus4"),
            ("IV[add6]", "IVadd6", "IVadd6"),
            ("i[add6]", "iadd6", "ib13"),
            ("V[no3][add4]", "Vsus4", "Vsus4"),
            ("V7[b5]", "V7b5", "V7b5"),
            ("V/", "V", "V"),
            ("viio/4/3/vi", "viio7/vi/2", "viio7/vi/2"),
            ("V7/V/V", "V7/V/V", "V7/V/V"),
            ("viio6/iv6", "viio/iv/5", "viio/iv/5"),
        ] {
            for (mode, plain) in [(Mode::Major, major), (Mode::Minor, minor)] {
                let read = RomanText::read(written, mode).unwrap_or_else(|e| panic!("{e}"));
                assert_eq!(read.numeral.to_string(), plain, "{written} in {mode}");
            }
        }
    }

    #[test]
    fn notes_left_out_do_not_change_the_numeral() {
        let read = RomanText::read("V6/5[no1][no5]", Mode::Major).expect("a numeral");
        assert_eq!(read.numeral.to_string(), "V7/7");
        let notes: Vec<String> = read
            .notes(Key::C_MAJOR)
            .expect("notes near to the key")
            .iter()
            .map(ToString::to_string)
            .collect();
        assert_eq!(notes, ["B", "F"]);
    }

    #[test]
    fn a_broken_numeral_names_its_place() {
        for (text, at, expected) in [
            ("", 0..0, RomanTextExpected::Roman),
            ("H7", 0..2, RomanTextExpected::Roman),
            ("VIII", 3..4, RomanTextExpected::FiguresOrTarget),
            ("I4", 1..2, RomanTextExpected::Figures),
            ("V7[up3]", 2..7, RomanTextExpected::Bracket),
            ("V/x", 2..3, RomanTextExpected::Target),
            ("V[b9]", 1..5, RomanTextExpected::NoteOfTheChord),
            ("bI7", 0..3, RomanTextExpected::CommonNote),
        ] {
            let error = RomanText::read(text, Mode::Major).expect_err(text);
            assert_eq!((error.at, error.expected), (at, expected), "{text}");
        }
    }

    proptest! {
        #[test]
        fn no_text_breaks_the_reader(
            text in "[IViv7bo#ø/+d0-9]{0,12}|(Ger|It|Fr|N|Cad|V)[\\[\\]noadb#1-9/V]{0,12}|.{0,40}"
        ) {
            for mode in [Mode::Major, Mode::Minor] {
                match RomanText::read(&text, mode) {
                    Err(error) => {
                        prop_assert!(error.text.get(error.at.clone()).is_some());
                        prop_assert!(!error.to_string().is_empty());
                    }
                    Ok(read) => {
                        let printed = read.numeral.to_string();
                        prop_assert_eq!(printed.parse::<Numeral>(), Ok(read.numeral), "{}", text);
                    }
                }
            }
        }
    }
}

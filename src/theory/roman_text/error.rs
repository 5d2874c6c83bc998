//! Why a text is no numeral of RomanText.

use std::fmt;
use std::ops::Range;

use crate::theory::quoted::quoted;

/// What a RomanText numeral should have had at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RomanTextExpected {
    /// A Roman numeral or one of the named chords.
    Roman,
    /// Figures that belong to a chord.
    Figures,
    /// Figures, brackets, a target or the end.
    FiguresOrTarget,
    /// An omission, an addition or an alteration.
    Bracket,
    /// A Roman numeral after a slash.
    Target,
    /// A note to alter that the chord has, or one to add that it has not.
    NoteOfTheChord,
    /// A seventh, ninth, eleventh or thirteenth that has a name above such a triad.
    CommonNote,
    /// A root and bass with at most two accidentals before their degree.
    FewerAccidentals,
    /// Fewer targets after each other, or a shorter text.
    Shorter,
}

impl fmt::Display for RomanTextExpected {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Roman => "a Roman numeral I to VII, `It`, `Fr`, `Ger`, `N` or `Cad64`",
            Self::Figures => "figures such as `6`, `64`, `7`, `65`, `43`, `42` or `9`",
            Self::FiguresOrTarget => "figures such as `65`, a bracket, or a slash and a target",
            Self::Bracket => "a bracket such as `[no3]`, `[add6]` or `[b5]`",
            Self::Target => "a target in Roman numerals such as `ii` after the slash",
            Self::NoteOfTheChord => {
                "a note to alter that the chord has, or one to add that it has not"
            }
            Self::CommonNote => {
                "a chord whose seventh, ninth, eleventh and thirteenth have common names"
            }
            Self::FewerAccidentals => "a root and bass nearer to the key",
            Self::Shorter => "a shorter numeral with at most six targets",
        })
    }
}

/// A text that is no RomanText numeral: the bytes at fault and what was expected there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RomanTextError {
    /// The text that was read.
    pub text: String,
    /// Its bytes that are at fault.
    pub at: Range<usize>,
    /// What should have stood there.
    pub expected: RomanTextExpected,
}

impl fmt::Display for RomanTextError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (found, whole) = (&self.text[self.at.clone()], quoted(&self.text));
        if found == self.text && !found.is_empty() {
            write!(f, "`{whole}` cannot be read")?;
        } else if found.is_empty() {
            write!(f, "`{whole}` ends too early")?;
        } else {
            write!(f, "`{}` in `{whole}` cannot be read", quoted(found))?;
        }
        write!(f, "; expected {}", self.expected)
    }
}

impl std::error::Error for RomanTextError {}

//! Why a text is no numeral.

use std::fmt;
use std::ops::Range;

use crate::theory::quoted::quoted;

/// What a numeral should have had where reading stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Expected {
    /// A Roman numeral, after any accidentals.
    Roman,
    /// A sign of quality, a slash or the end.
    QualityOrEnd,
    /// A target in Roman numerals or a bass degree.
    TargetOrBass,
    /// Nothing after the bass degree.
    End,
    /// An inversion whose bass degree has at most two accidentals.
    NearerBass,
    /// A text no longer than the longest numeral.
    Shorter,
    /// A numeral where a chord symbol stands.
    NoSymbol,
    /// Fewer targets than [`super::DEEPEST_TARGET`] after each other.
    FewerTargets,
}

impl fmt::Display for Expected {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Roman => "a Roman numeral I to VII",
            Self::QualityOrEnd => "a quality such as `7`, `maj7`, `o7`, `ø7` or `add6`, or a slash",
            Self::TargetOrBass => {
                "a target such as `ii` or a bass degree such as `5` after the slash"
            }
            Self::End => "nothing after the bass degree",
            Self::NearerBass => "an inversion with its bass nearer to the key",
            Self::Shorter => "a numeral, which is never so long",
            Self::NoSymbol => "a numeral counted from the tonic, such as `iv` or `V7/ii`",
            Self::FewerTargets => "at most six targets after each other",
        })
    }
}

/// A text that is no numeral: the text, the bytes at fault, and what was expected there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NumeralError {
    /// The text that was read.
    pub text: String,
    /// Its bytes that are at fault.
    pub at: Range<usize>,
    /// What should have stood there.
    pub expected: Expected,
    /// A numeral that was perhaps meant.
    pub near: Option<String>,
}

impl fmt::Display for NumeralError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (found, whole) = (&self.text[self.at.clone()], quoted(&self.text));
        if self.expected == Expected::NoSymbol {
            write!(f, "`{whole}` is a chord symbol")?;
        } else if found.is_empty() {
            write!(f, "`{whole}` ends too early")?;
        } else if self.expected == Expected::Shorter || found == self.text {
            write!(f, "`{whole}` cannot be read")?;
        } else {
            write!(f, "`{}` in `{whole}` cannot be read", quoted(found))?;
        }
        write!(f, "; expected {}", self.expected)?;
        if let Some(near) = &self.near {
            write!(f, "; did you mean `{near}`?")?;
        }
        Ok(())
    }
}

impl std::error::Error for NumeralError {}

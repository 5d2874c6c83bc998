//! Why a text is no numeral.

use std::fmt;
use std::ops::Range;

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
            Self::FewerTargets => "at most six targets after each other",
        })
    }
}

/// A text that is no numeral: the text, the bytes at fault, and what was expected there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NumeralError {
    pub text: String,
    pub at: Range<usize>,
    pub expected: Expected,
    /// A numeral that was perhaps meant.
    pub near: Option<String>,
}

impl fmt::Display for NumeralError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let found = &self.text[self.at.clone()];
        if found.is_empty() {
            write!(f, "`{}` ends too early", self.text)?;
        } else {
            write!(f, "`{found}` in `{}` cannot be read", self.text)?;
        }
        write!(f, "; expected {}", self.expected)?;
        if let Some(near) = &self.near {
            write!(f, "; did you mean `{near}`?")?;
        }
        Ok(())
    }
}

impl std::error::Error for NumeralError {}

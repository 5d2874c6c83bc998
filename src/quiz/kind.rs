//! The names of the kinds of questions.

use std::fmt;
use std::str::FromStr;

use crate::theory::quoted;

/// A kind of question by its id.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum QuestionKind {
    /// Name what chords of the line do.
    NameChords,
    /// Which chords leave the key?
    LeavesKey,
    /// Which device is this?
    WhichDevice,
    /// Which key is home?
    Home,
    /// Which of two lines holds a device?
    WhichOfTwo,
    /// Name the chords that a chart leaves open.
    FinishChart,
    /// Which degrees does a voice go through?
    Degrees,
}

impl QuestionKind {
    /// All kinds.
    pub const ALL: [Self; 7] = [
        Self::NameChords,
        Self::LeavesKey,
        Self::WhichDevice,
        Self::Home,
        Self::WhichOfTwo,
        Self::FinishChart,
        Self::Degrees,
    ];

    /// Whether its answers name what sounded, so that one can be taken for another.
    #[must_use]
    pub fn names_what_sounds(self) -> bool {
        match self {
            Self::NameChords | Self::FinishChart | Self::WhichDevice => true,
            Self::LeavesKey | Self::Home | Self::WhichOfTwo | Self::Degrees => false,
        }
    }

    /// The id in files and in the journal.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::NameChords => "name-chords",
            Self::LeavesKey => "leaves-key",
            Self::WhichDevice => "which-device",
            Self::Home => "home",
            Self::WhichOfTwo => "which-of-two",
            Self::FinishChart => "finish-chart",
            Self::Degrees => "degrees",
        }
    }
}

impl fmt::Display for QuestionKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id())
    }
}

/// What stood where a question kind was expected.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuestionKindError(pub String);

impl fmt::Display for QuestionKindError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ids = QuestionKind::ALL.map(QuestionKind::id).join("`, `");
        write!(
            f,
            "`{}` is not a question kind; expected one of `{ids}`",
            quoted(&self.0)
        )
    }
}

impl std::error::Error for QuestionKindError {}

impl FromStr for QuestionKind {
    type Err = QuestionKindError;

    fn from_str(text: &str) -> Result<Self, QuestionKindError> {
        Self::ALL
            .into_iter()
            .find(|kind| kind.id() == text)
            .ok_or_else(|| QuestionKindError(text.to_owned()))
    }
}

//! The kinds of questions. A kind turns a line into what is asked of it; it produces
//! data only and knows nothing of how it is shown.

mod name_chords;

use std::fmt;
use std::str::FromStr;

use rand_chacha::ChaCha8Rng;

use super::drill::Drill;
use super::question::{NoQuestion, Question};
use crate::devices::Catalogue;

/// A kind of question by its id.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum QuestionKind {
    /// Name what chords of the line do.
    NameChords,
}

impl QuestionKind {
    pub const ALL: [Self; 1] = [Self::NameChords];

    /// The id in files and in the journal.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::NameChords => "name-chords",
        }
    }

    /// What the pupil is asked to do, in a sentence.
    #[must_use]
    pub const fn prompt(self) -> &'static str {
        match self {
            Self::NameChords => "What does the marked chord do?",
        }
    }

    /// Puts what is asked, with its truth, into a question that has its line.
    pub(super) fn ask(
        self,
        question: &mut Question,
        drill: &Drill,
        catalogue: &Catalogue,
        random: &mut ChaCha8Rng,
    ) -> Result<(), NoQuestion> {
        match self {
            Self::NameChords => name_chords::ask(question, drill, catalogue, random),
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
pub struct NotAKind(pub String);

impl fmt::Display for NotAKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ids = QuestionKind::ALL.map(QuestionKind::id).join("`, `");
        write!(
            f,
            "`{}` is not a question kind; expected one of `{ids}`",
            self.0
        )
    }
}

impl std::error::Error for NotAKind {}

impl FromStr for QuestionKind {
    type Err = NotAKind;

    fn from_str(text: &str) -> Result<Self, NotAKind> {
        Self::ALL
            .into_iter()
            .find(|kind| kind.id() == text)
            .ok_or_else(|| NotAKind(text.to_owned()))
    }
}

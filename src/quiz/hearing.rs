//! What can be heard of a question.

use crate::arranging::Strand;
use crate::theory::Line;

/// What the pupil wants to hear.
#[derive(Clone, Debug, PartialEq)]
pub enum Hearing {
    /// The key as the exercise gives it, then the line.
    Question,
    /// The line alone.
    Line,
    /// The line at two thirds of its tempo.
    Slower,
    /// The bass, the inner voices or the top voice alone.
    Strand(Strand),
    /// One chord.
    Slot(usize),
    /// The chords from one slot to another, over and over.
    Loop {
        /// The first, from 0.
        from: usize,
        /// The last.
        to: usize,
    },
    /// The cadence that sets the key.
    Key,
    /// The other line, in questions that compare two.
    Other,
    /// The line with an answer in it.
    With(Box<Line>),
    /// Another shape of the line, taken up where the one that sounds is.
    Instead(Box<Self>),
}

impl Hearing {
    /// Whether it tells what the question asks.
    pub(super) fn tells(&self) -> bool {
        match self {
            Self::With(_) | Self::Other => true,
            Self::Instead(hearing) => hearing.tells(),
            Self::Question
            | Self::Line
            | Self::Slower
            | Self::Strand(_)
            | Self::Slot(_)
            | Self::Loop { .. }
            | Self::Key => false,
        }
    }
}

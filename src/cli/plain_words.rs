//! The words that the plain drill understands, and what it tells beside the drill.

use super::context::Context;
use super::failure::tell as tell_message;
use super::render_error::Message;
use crate::arranging::Strand;
use crate::quiz::Hearing;

/// The words that are no answers.
pub(super) const HELP: &str = "An empty line plays again; `bass`, `inner`, `top`, `slower`, `key` play a part of it, `chord` \
     the asked one and `chord 3` the third; `help` tells this again, `quit` leaves.";

/// What a typed word means.
pub(super) enum Word<'w> {
    Nothing,
    Hear(Hearing),
    /// A chord by its number, or the one that is asked.
    Chord(Option<usize>),
    /// The line with the answer in it.
    Mine,
    Help,
    Leave,
    Answer(&'w str),
}

impl<'w> Word<'w> {
    pub(super) fn of(word: &'w str) -> Self {
        match word {
            "" => Self::Nothing,
            "again" => Self::Hear(Hearing::Line),
            "chord" => Self::Chord(None),
            "bass" => Self::Hear(Hearing::Strand(Strand::Bass)),
            "inner" => Self::Hear(Hearing::Strand(Strand::Inner)),
            "top" => Self::Hear(Hearing::Strand(Strand::Top)),
            "slower" => Self::Hear(Hearing::Slower),
            "key" => Self::Hear(Hearing::Key),
            "mine" => Self::Mine,
            "help" | "?" => Self::Help,
            "quit" => Self::Leave,
            text => match text.strip_prefix("chord ").map(|rest| rest.trim().parse()) {
                Some(Ok(number)) => Self::Chord(Some(number)),
                Some(Err(_)) | None => Self::Answer(text),
            },
        }
    }
}

/// Tells something on standard error.
pub(super) fn tell(context: &Context, text: &str) {
    tell_message(
        &Message::plain(text.to_owned()),
        context.json,
        context.error_style,
    );
}

//! Questions, answers and marks, and the session as a pure machine. May not touch the
//! clock, the screen, files or sound: times and seeds come in with events, and what is to
//! be done goes out as effects.

mod aim;
mod ask;
mod bag;
mod distractor_naming;
mod distractors;
mod drill;
mod event;
mod hearing;
mod kind;
mod kinds;
mod making;
mod material;
mod minimal_pair;
mod nearness;
mod no_question;
mod place;
mod prompt;
mod question;
mod session;
mod sounding_out;
mod tally;
#[cfg(test)]
mod tests;
mod weighted_sampling;

pub use aim::{Aim, Hardness, Held};
pub use ask::{
    AnswerManner, Ask, Blind, ChordAsk, DegreesAsk, DeviceAsk, Form, KeyAsk, LineAsk, Mark,
    Misread, SlotsAsk, Unfair,
};
pub use bag::from_bag;
pub use drill::{Asked, Drill, Followed, KeyGiven};
pub use event::{Answered, Effect, Event, Millis};
pub use hearing::Hearing;
pub use kind::{QuestionKind, QuestionKindError};
pub use making::question_seed;
pub use material::{Material, Other};
pub use no_question::NoQuestion;
pub use place::place;
pub use prompt::Prompt;
pub use question::Question;
pub use session::{Asking, Session, State};
pub use sounding_out::{Part, Programme};
pub use tally::{Count, Tally};

//! Questions, answers and marks, and the session as a pure machine. May not touch the
//! clock, the screen, files or sound: times and seeds come in with events, and what is to
//! be done goes out as effects.

mod aim;
mod alike;
mod answer;
mod astray;
mod bag;
mod choices;
mod drill;
mod event;
mod kinds;
mod lots;
mod mark;
mod mine;
mod nearness;
mod place;
mod question;
mod sentences;
mod session;
mod sounding_out;
mod spellings;
mod tally;
mod tell;
#[cfg(test)]
mod tests;
mod typed;

pub use aim::{Aim, Hardness, Held};
pub use answer::{Answer, Form};
pub use bag::from_bag;
pub use drill::{Asked, Drill, KeyGiven};
pub use event::{Answered, Effect, Event, Millis};
pub use kinds::{NotAKind, QuestionKind};
pub use mark::Mark;
pub use place::place;
pub use question::{Ask, NoQuestion, Other, Prompt, Question, Truth, question_seed};
pub use session::{Asking, Session, State};
pub use sounding_out::{Hearing, Part, Programme};
pub use tally::{Count, Tally};

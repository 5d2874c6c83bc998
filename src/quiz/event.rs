//! What happens to a session, and what it wants done.

use super::aim::Aim;
use super::ask::{Mark, Misread};
use super::hearing::Hearing;
use super::no_question::NoQuestion;
use super::question::Question;
use super::sounding_out::Programme;
use crate::devices::DeviceId;
use crate::theory::TooRemote;

/// Milliseconds since 1970 (UTC), as the host's clock gives them.
pub type Millis = u64;

/// Something that happens to a session. Times, seeds and choices come in from outside.
#[derive(Clone, Debug, PartialEq)]
pub enum Event {
    /// A question is wanted on this device.
    Begin {
        /// The device.
        wanted: DeviceId,
        /// Why it is asked.
        reason: String,
        /// What the question should be like.
        aim: Aim,
        /// The seed of the question.
        seed: u64,
        /// When this happens.
        now: Millis,
    },
    /// An answer has been typed to what is asked now.
    Type {
        /// The text.
        text: String,
        /// When this happens.
        now: Millis,
    },
    /// One of the answers on offer has been chosen.
    Choose {
        /// Its number, from 0.
        choice: usize,
        /// When this happens.
        now: Millis,
    },
    /// A slot has been put into the answer, or taken out of it.
    Toggle {
        /// Its number, from 0.
        slot: usize,
    },
    /// Go to another of the asked things.
    Select {
        /// Its number, from 0.
        ask: usize,
    },
    /// Everything is answered: mark it.
    Submit {
        /// When this happens.
        now: Millis,
    },
    /// Something is to be heard.
    Hear {
        /// What.
        hearing: Hearing,
        /// When this happens.
        now: Millis,
    },
    /// What was playing has come to its end.
    Silence {
        /// When this happens.
        now: Millis,
    },
    /// The marks have been read: on to the next question.
    Next,
    /// The drill is left before its end.
    Leave,
}

/// What a session wants done.
#[derive(Clone, Debug, PartialEq)]
pub enum Effect {
    /// Sound this in place of what sounds.
    Play(Programme),
    /// Be silent.
    Stop,
    /// Write the answers down before anything else is shown.
    Record(Box<Answered>),
    /// Choose the next device and send [`Event::Begin`].
    WantQuestion,
    /// The typed text is no answer.
    Misread(Misread),
    /// Nothing can be played for this answer.
    CannotSound(TooRemote),
    /// No question can be made.
    Refused(NoQuestion),
    /// The drill is over.
    Finished,
}

/// A question with its marks: all that is worth keeping of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// The question.
    pub question: Question,
    /// Why it was asked.
    pub reason: String,
    /// One mark for each ask.
    pub marks: Vec<Mark>,
    /// What else may be heard to each of them: the line with the answer in it, or the
    /// other of two lines.
    pub playback: Vec<Option<Hearing>>,
    /// The question's place in the drill, from 0.
    pub index: u32,
    /// When the answers came.
    pub at: Millis,
    /// From the last sound to the answer, in milliseconds.
    pub thinking: Millis,
    /// How often anything was heard again.
    pub replays: u32,
    /// How many devices were explained before the answer, the asked one among them.
    pub explained: u32,
    /// The part of the wrong answers on offer, 0 to 1, that lie near the right one;
    /// nothing where none are offered.
    pub nearness: Option<f64>,
}

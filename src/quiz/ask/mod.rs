//! One thing that is asked of a line: each form of answer in a file of its own, which owns
//! its truth, what is on offer, how an answer is read, marked, shown and heard, and what
//! may be unfair about it. Nobody outside asks which form it is.

mod choice;
mod chord;
mod degrees;
mod fairness;
mod form;
mod home;
mod slots;

pub use choice::{DeviceAsk, LineAsk};
pub use chord::ChordAsk;
pub use degrees::DegreesAsk;
pub use fairness::{Blind, Unfair};
pub use form::{AnswerManner, Form, Mark, Misread};
pub use home::KeyAsk;
pub use slots::SlotsAsk;

/// One thing that is asked, with the answer that has been given to it.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// What one chord does.
    Chord(ChordAsk),
    /// Which device is in the line.
    Device(DeviceAsk),
    /// Which of two lines holds the device.
    Line(LineAsk),
    /// Which key is home.
    Key(KeyAsk),
    /// Which chords have a note outside the key.
    Slots(SlotsAsk),
    /// Which degrees of the key a voice goes through.
    Degrees(DegreesAsk),
}

impl std::ops::Deref for Ask {
    type Target = dyn Form;

    fn deref(&self) -> &Self::Target {
        match self {
            Self::Chord(ask) => ask,
            Self::Device(ask) => ask,
            Self::Line(ask) => ask,
            Self::Key(ask) => ask,
            Self::Slots(ask) => ask,
            Self::Degrees(ask) => ask,
        }
    }
}

impl std::ops::DerefMut for Ask {
    fn deref_mut(&mut self) -> &mut Self::Target {
        match self {
            Self::Chord(ask) => ask,
            Self::Device(ask) => ask,
            Self::Line(ask) => ask,
            Self::Key(ask) => ask,
            Self::Slots(ask) => ask,
            Self::Degrees(ask) => ask,
        }
    }
}

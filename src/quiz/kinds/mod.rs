//! The kinds of questions. A kind turns a line into what is asked of it; it produces
//! data only and knows nothing of how it is shown.

mod finish_chart;
mod home;
mod leaves_key;
mod name_chords;
mod twin;
mod which_device;
mod which_of_two;

pub(super) use twin::line_with;

use std::fmt;
use std::str::FromStr;

use rand_chacha::ChaCha8Rng;

use super::drill::Drill;
use super::question::{NoQuestion, Question};
use crate::devices::{Catalogue, DeviceId};

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
}

impl QuestionKind {
    pub const ALL: [Self; 6] = [
        Self::NameChords,
        Self::LeavesKey,
        Self::WhichDevice,
        Self::Home,
        Self::WhichOfTwo,
        Self::FinishChart,
    ];

    /// Whether its answers name what sounded, so that one can be taken for another.
    #[must_use]
    pub fn names_what_sounds(self) -> bool {
        match self {
            Self::NameChords | Self::FinishChart | Self::WhichDevice => true,
            Self::LeavesKey | Self::Home | Self::WhichOfTwo => false,
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
            Self::LeavesKey => leaves_key::ask(question, drill),
            Self::WhichDevice => which_device::ask(question, drill, catalogue, random),
            Self::Home => home::ask(question, drill, random),
            Self::WhichOfTwo => which_of_two::ask(question, catalogue, random),
            Self::FinishChart => finish_chart::ask(question, drill, catalogue, random),
        }
    }
}

/// The kind cannot ask about the wanted device in this line.
fn unsuited(question: &Question) -> NoQuestion {
    NoQuestion::Unsuited {
        kind: question.kind,
        device: question.wanted.clone(),
    }
}

/// The devices of the drill that a slot belongs to.
fn tested(question: &Question, drill: &Drill, slot: usize) -> Vec<DeviceId> {
    let devices = question.progression.devices_at(slot);
    devices
        .filter(|id| drill.devices.contains(id))
        .cloned()
        .collect()
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

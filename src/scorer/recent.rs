//! The last few questions: what a contrast may still answer to.

/// A miss is followed up within this many questions.
pub(super) const FOLLOW_UP: usize = 5;

/// One asked question, in the numbers of the catalogue.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Question {
    pub(super) devices: Vec<usize>,
    pub(super) missed: Option<Miss>,
}

/// A device that was not heard, and what it was taken for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Miss {
    pub(super) device: usize,
    pub(super) heard_as: Option<usize>,
}

/// The last questions, the newest first.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Recent {
    questions: [Question; FOLLOW_UP],
}

impl Recent {
    /// Begins the next question.
    pub(super) fn start(&mut self) {
        self.questions.rotate_right(1);
        self.questions[0].devices.clear();
        self.questions[0].missed = None;
    }

    /// The question asked for this device too.
    pub(super) fn add(&mut self, device: usize, missed: Option<Miss>) {
        self.questions[0].devices.push(device);
        self.questions[0].missed = self.questions[0].missed.or(missed);
    }

    /// The devices that the last question asked for.
    pub(super) fn last(&self) -> &[usize] {
        &self.questions[0].devices
    }

    /// Whether the last question asked for this device.
    pub(super) fn was_last(&self, device: usize) -> bool {
        self.last().contains(&device)
    }

    /// Whether the question before the last asked for this device.
    pub(super) fn was_before(&self, device: usize) -> bool {
        self.questions[1].devices.contains(&device)
    }

    /// The misses that no later question has followed up, the newest first, and how many
    /// questions came after each.
    pub(super) fn open_misses(&self) -> impl Iterator<Item = (usize, Miss)> {
        self.questions
            .iter()
            .enumerate()
            .filter_map(|(age, question)| {
                let miss = question.missed?;
                let followed = self.questions[..age]
                    .iter()
                    .any(|later| later.devices.contains(&miss.device));
                (!followed).then_some((age, miss))
            })
    }
}

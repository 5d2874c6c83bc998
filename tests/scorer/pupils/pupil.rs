//! What a scripted pupil answers.

use std::collections::BTreeMap;

use plagal::devices::DeviceId;
use plagal::quiz::{AnswerManner, Ask, Question};
use plagal::theory::Notation;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// How often a pupil slips who hears everything.
const SLIP: f64 = 0.08;

/// The question of a sitting after which a pupil is tired, and how often wrong then.
const FRESH: u32 = 15;
const TIRED: f64 = 0.3;

/// Who answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Pupil {
    /// Whatever was first right for the device at this place of the exercise, always.
    Fixed { device: usize },
    /// What has been right most often so far, of what is on offer.
    Commonest,
    /// Right, but for the questions on the device at this place.
    DeafTo { device: usize },
    /// Right where the answer tells of no device, and else anything but right.
    DeafToTelling,
    /// Right but for slips.
    Slips,
    /// The same, and tired late in a sitting.
    Tires,
}

/// What a pupil remembers.
pub(crate) struct Memory {
    pupil: Pupil,
    random: ChaCha8Rng,
    rights: BTreeMap<String, u32>,
    fixed: Option<String>,
    /// The device that the pupil is deaf to.
    deaf: Option<DeviceId>,
}

impl Memory {
    pub(crate) fn new(pupil: Pupil, devices: &[DeviceId]) -> Self {
        let deaf = match pupil {
            Pupil::DeafTo { device } => devices.get(device).cloned(),
            _ => None,
        };
        Self {
            deaf,
            pupil,
            random: ChaCha8Rng::seed_from_u64(7),
            rights: BTreeMap::new(),
            fixed: None,
        }
    }

    /// The text of the answer to an ask of question `number` of the sitting; `place` is
    /// where its device stands in the exercise.
    pub(crate) fn answer(
        &mut self,
        question: &Question,
        ask: &Ask,
        place: usize,
        number: u32,
    ) -> String {
        let right = ask.truth(Notation::Text);
        let right = if ask.manner() == AnswerManner::Offered {
            let labels = ask.labels(Notation::Text);
            self.right_of(question, ask, &labels).unwrap_or(right)
        } else {
            right
        };
        let said = match self.pupil {
            Pupil::Fixed { device } => {
                if self.fixed.is_none() && place == device && !ask.devices().is_empty() {
                    self.fixed = Some(right.clone());
                }
                let fixed = self.fixed.clone();
                self.if_offered(fixed, ask)
            }
            Pupil::Commonest => {
                let most = self.commonest(ask);
                self.if_offered(most, ask)
            }
            Pupil::DeafTo { device } if place == device || self.is_of(ask) => {
                self.wrong(ask, &right)
            }
            Pupil::DeafToTelling if !ask.devices().is_empty() => self.wrong(ask, &right),
            Pupil::Slips if self.random.random_bool(SLIP) => self.wrong(ask, &right),
            Pupil::Tires
                if self
                    .random
                    .random_bool(if number < FRESH { SLIP } else { TIRED }) =>
            {
                self.wrong(ask, &right)
            }
            Pupil::DeafTo { .. } | Pupil::DeafToTelling | Pupil::Slips | Pupil::Tires => {
                right.clone()
            }
        };
        *self.rights.entry(right).or_default() += 1;
        said
    }

    /// Whether the ask tells of the device that the pupil is deaf to.
    fn is_of(&self, ask: &Ask) -> bool {
        let deaf = self.deaf.as_ref();
        deaf.is_some_and(|deaf| ask.devices().contains(deaf))
    }

    fn right_of(&self, question: &Question, ask: &Ask, labels: &[String]) -> Option<String> {
        let catalogue = super::desk::catalogue();
        (0..labels.len())
            .find(|choice| {
                let mut ask = ask.clone();
                ask.choose(*choice);
                let mark = ask.mark(question.material(), catalogue);
                mark.is_some_and(|mark| mark.tier.is_right())
            })
            .map(|choice| labels[choice].clone())
    }

    fn commonest(&self, ask: &Ask) -> Option<String> {
        let labels = ask.labels(Notation::Text);
        let offered = |label: &&String| labels.is_empty() || labels.contains(label);
        let known = self.rights.keys().filter(offered);
        known.max_by_key(|label| self.rights[*label]).cloned()
    }

    /// This answer where it can be given, or else any.
    fn if_offered(&mut self, answer: Option<String>, ask: &Ask) -> String {
        let labels = ask.labels(Notation::Text);
        match answer {
            Some(answer) if labels.is_empty() || labels.contains(&answer) => answer,
            Some(_) | None if labels.is_empty() => anything(ask),
            Some(_) | None => labels[self.random.random_range(0..labels.len())].clone(),
        }
    }

    fn wrong(&mut self, ask: &Ask, right: &str) -> String {
        let mut labels = ask.labels(Notation::Text);
        labels.retain(|label| label != right);
        if labels.is_empty() {
            return anything(ask);
        }
        labels[self.random.random_range(0..labels.len())].clone()
    }
}

/// What is hardly ever right.
fn anything(ask: &Ask) -> String {
    match ask.manner() {
        AnswerManner::OnChart => "1".to_owned(),
        AnswerManner::Words => "4 4".to_owned(),
        AnswerManner::Typed | AnswerManner::Offered => "bV".to_owned(),
    }
}

//! The families of one learner: what every device says about its family's level, and
//! every family about the learner's.

use super::ability::{Ability, CanonicalForm, Gaussian};
use super::model::Model;

/// All abilities of a learner. Devices meet only through their family, and families only
/// through the learner, so a belief is the sum of a few messages.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Abilities {
    devices: Vec<Ability>,
    family_of: Vec<usize>,
    members: Vec<Vec<usize>>,
    /// What each device's answers say about its family's level.
    about: Vec<CanonicalForm>,
    /// What each family's answers say about the learner's level.
    heard: Vec<CanonicalForm>,
    prior: CanonicalForm,
    family_variance: f64,
}

impl Abilities {
    pub(super) fn new(family_of: Vec<usize>, model: &Model) -> Self {
        let families = family_of.iter().max().map_or(0, |most| most + 1);
        let mut members = vec![Vec::new(); families];
        for (device, family) in family_of.iter().enumerate() {
            members[*family].push(device);
        }
        Self {
            devices: vec![Ability::unheard(model.device_variance); family_of.len()],
            about: vec![CanonicalForm::default(); family_of.len()],
            family_of,
            members,
            heard: vec![CanonicalForm::default(); families],
            prior: CanonicalForm::new(model.learner_mean, model.learner_variance),
            family_variance: model.family_variance,
        }
    }

    /// What is believed of a device's ability, in logits.
    pub(super) fn of(&self, device: usize) -> Gaussian {
        self.devices[device].ability(self.level_without(device))
    }

    /// The same with the device's deviation drifting first, without changing anything.
    pub(super) fn of_after(&self, device: usize, kept: f64, noise: f64) -> Gaussian {
        let mut ability = self.devices[device];
        ability.drift(kept, noise);
        ability.ability(self.level_without(device))
    }

    /// Time passes for a device, which then has an answer to learn from: its family hears
    /// of both at once.
    pub(super) fn drift(&mut self, device: usize, kept: f64, noise: f64) {
        self.devices[device].drift(kept, noise);
    }

    pub(super) fn learn_and_drift(
        &mut self,
        device: usize,
        evidence: CanonicalForm,
        kept: f64,
        noise: f64,
    ) {
        self.devices[device].learn(evidence);
        self.devices[device].drift(kept, noise);
        self.listen(device);
    }

    fn listen(&mut self, device: usize) {
        self.about[device] = self.devices[device].about_level();
        let family = self.family_of[device];
        self.heard[family] = self.sum(family, None).add_noise(self.family_variance);
    }

    fn sum(&self, family: usize, without: Option<usize>) -> CanonicalForm {
        self.members[family]
            .iter()
            .filter(|member| Some(**member) != without)
            .map(|member| self.about[*member])
            .fold(CanonicalForm::default(), CanonicalForm::and)
    }

    /// What everything but the device itself says about its family's level.
    fn level_without(&self, device: usize) -> CanonicalForm {
        let own = self.family_of[device];
        let learner = self
            .heard
            .iter()
            .enumerate()
            .filter(|(family, _)| *family != own)
            .map(|(_, heard)| *heard)
            .fold(self.prior, CanonicalForm::and);
        learner
            .add_noise(self.family_variance)
            .and(self.sum(own, Some(device)))
    }
}

//! The scorer of one learner: entries in.

use std::collections::HashMap;

use super::confusion::{Confusion, Row};
use super::family::Abilities;
use super::model::{Model, guess};
use super::observation::Response;
use super::recent::{Miss, Recent};
use super::tally::Tally;
use crate::devices::DeviceId;
use crate::journal::{Entry, Glance, Text};

/// What is believed of one learner. Folding the same entries in the same order gives the
/// same scorer, whether they come from a file or one by one.
#[derive(Clone, Debug, PartialEq)]
pub struct Scorer {
    pub(super) model: Model,
    pub(super) devices: Vec<DeviceId>,
    pub(super) families: Vec<String>,
    pub(super) family_of: Vec<usize>,
    pub(super) numbers: HashMap<String, usize>,
    pub(super) abilities: Abilities,
    pub(super) tallies: Vec<Tally>,
    pub(super) rows: Vec<Row>,
    pub(super) recent: Recent,
    /// Questions folded in so far.
    pub(super) turn: u64,
    answers: u64,
    strangers: u64,
}

impl Scorer {
    /// Nobody has answered anything. The catalogue names every device with its family; a
    /// device named twice counts once.
    #[must_use]
    pub fn new<I, F>(catalogue: I) -> Self
    where
        I: IntoIterator<Item = (DeviceId, F)>,
        F: Into<String>,
    {
        let mut devices = Vec::new();
        let mut families: Vec<String> = Vec::new();
        let mut family_of = Vec::new();
        let mut numbers = HashMap::new();
        for (device, family) in catalogue {
            if numbers.contains_key(device.as_str()) {
                continue;
            }
            let family = family.into();
            let place = families.iter().position(|known| *known == family);
            family_of.push(place.unwrap_or_else(|| {
                families.push(family);
                families.len() - 1
            }));
            numbers.insert(device.as_str().to_owned(), devices.len());
            devices.push(device);
        }
        let model = Model::FROZEN;
        Self {
            abilities: Abilities::new(family_of.clone(), &model),
            tallies: vec![Tally::default(); devices.len()],
            rows: vec![Row::default(); devices.len()],
            recent: Recent::default(),
            turn: 0,
            answers: 0,
            strangers: 0,
            model,
            devices,
            families,
            family_of,
            numbers,
        }
    }

    /// Takes in an answered question. The caller picks the learner.
    pub fn fold(&mut self, entry: &Entry) {
        self.fold_glance(&entry.glance());
    }

    /// The same from the part of an entry that matters here.
    pub fn fold_glance(&mut self, entry: &Glance<'_>) {
        self.turn += 1;
        self.recent.start();
        let ease = self.model.ease(entry.difficulty, entry.key_setting);
        for slot in &entry.slots {
            self.answers += 1;
            let devices: Vec<usize> = slot.devices.iter().filter_map(|id| self.find(id)).collect();
            if devices.is_empty() {
                self.strangers += 1;
                continue;
            }
            let heard_as = slot.heard_as.as_ref().and_then(|id| self.find(id));
            #[allow(clippy::cast_precision_loss)]
            let share = 1.0 / devices.len() as f64;
            let answer = Answer {
                time: entry.time,
                guess: guess(entry.answers),
                ease,
                credit: slot.credit.clamp(0.0, 1.0),
                share,
                heard_as,
            };
            for device in devices {
                let missed = answer.credit < 1.0;
                self.recent
                    .add(device, missed.then_some(Miss { device, heard_as }));
                self.answer(device, &answer);
            }
        }
    }

    fn find(&self, id: &Text<'_>) -> Option<usize> {
        self.numbers.get(id.as_str()).copied()
    }

    fn answer(&mut self, device: usize, answer: &Answer) {
        let tally = &self.tallies[device];
        let response = Response {
            guess: answer.guess,
            slip: self.model.slip,
            offset: answer.ease + tally.practised(&self.model),
        };
        let since = tally
            .last
            .map_or(0, |last| answer.time.saturating_sub(last));
        if since > 0 {
            let (kept, noise) = self.model.forgetting(since);
            self.abilities.drift(device, kept, noise);
        }
        let belief = self.abilities.of(device);
        let evidence = response.evidence(belief, answer.credit, answer.share);
        let (kept, noise) = self.model.practice();
        self.abilities
            .learn_and_drift(device, evidence, kept, noise);
        let tally = &mut self.tallies[device];
        tally.count(answer.credit, answer.time);
        tally.take_turn(answer.share, self.turn);
        self.rows[device].count(answer.heard_as.filter(|heard| *heard != device));
    }

    /// Answered slots so far.
    #[must_use]
    pub fn answers(&self) -> u64 {
        self.answers
    }

    /// Answered slots whose devices the catalogue does not hold.
    #[must_use]
    pub fn strangers(&self) -> u64 {
        self.strangers
    }

    /// The confusions that the answers bear out, the most frequent first.
    #[must_use]
    pub fn confusions(&self) -> Vec<Confusion> {
        let mut named: Vec<Confusion> = (0..self.devices.len())
            .flat_map(|device| self.confusions_of(device))
            .collect();
        named.sort_by(|a, b| b.times.cmp(&a.times).then(b.rate.total_cmp(&a.rate)));
        named
    }

    pub(super) fn confusions_of(&self, device: usize) -> impl Iterator<Item = Confusion> {
        let row = &self.rows[device];
        row.cells().iter().filter_map(move |cell| {
            let related = self.family_of[device] == self.family_of[cell.heard_as];
            row.is_named(*cell, related).then(|| Confusion {
                device: self.devices[device].clone(),
                heard_as: self.devices[cell.heard_as].clone(),
                times: cell.times,
                rate: row.rate(*cell, related),
            })
        })
    }
}

struct Answer {
    time: u64,
    guess: f64,
    ease: f64,
    credit: f64,
    share: f64,
    heard_as: Option<usize>,
}

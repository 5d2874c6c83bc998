//! The scorer of one learner: entries in.

use super::ability::Gaussian;
use super::all_or_none::AllOrNone;
use super::bias::{Bias, Habits};
use super::confusion::{Confusion, Row};
use super::digest::{Digest, Digester, Numbers, SlotDigest};
use super::filter::{Before, Filter};
use super::model::{Model, guess};
use super::observation::Response;
use super::outlook::Outlook;
use super::recent::{Miss, Recent};
use super::tally::Tally;
use crate::devices::DeviceId;
use crate::journal::{Entry, ScoredEntry};

/// From this chance on an answer is as good as given whatever sounds.
const HABIT: f64 = 0.5;

/// What is believed of one learner. Folding the same entries in the same order gives the
/// same scorer, whether they come from a file or one by one.
#[derive(Clone, Debug, PartialEq)]
pub struct Scorer {
    pub(super) model: Model,
    pub(super) devices: Vec<DeviceId>,
    pub(super) families: Vec<String>,
    pub(super) family_of: Vec<usize>,
    pub(super) digester: Digester,
    filter: Filter,
    all_or_none: AllOrNone,
    habits: Habits,
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
        let mut numbers = Numbers::default();
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
            filter: Filter::new(family_of.clone(), &model),
            all_or_none: AllOrNone::new(devices.len()),
            habits: Habits::default(),
            tallies: vec![Tally::default(); devices.len()],
            rows: vec![Row::default(); devices.len()],
            recent: Recent::default(),
            turn: 0,
            answers: 0,
            strangers: 0,
            devices,
            families,
            family_of,
            digester: Digester::new(numbers, model.clone()),
            model,
        }
    }

    /// Takes in an answered question. The caller picks the learner.
    ///
    /// # Examples
    /// Fold a journal, a line an answer:
    /// ```
    /// use plagal::devices::Catalogue;
    /// use plagal::journal::{Entry, JournalLine, parse};
    /// use plagal::scorer::Scorer;
    ///
    /// let journal = r#"{"version":1,"id":"a-1","time":1760000000123,"learner":"me","session":"a","exercise":"mixture","seed":1,"index":0,"kind":"name-chords","key":"Eb major","line":"I | IV | iv | I","tempo":96.0,"sound":"piano","texture":"held-chords","key_setting":"cadence","answers":6,"difficulty":{"inversion":0.0,"texture":0.0,"tempo":0.4,"similarity":0.5},"thinking":4210,"replays":1,"slots":[{"slot":2,"devices":["minor-four"],"truth":"iv","function":"borrowed subdominant","quality":"minor","degree":"4","bass":"4","answer":"iv","mark":"right","credit":1.0,"heard_as":null}]}"#;
    /// let catalogue = Catalogue::built_in();
    /// let devices = catalogue.devices().iter();
    /// let mut scorer = Scorer::new(devices.map(|device| (device.id.clone(), device.family.name())));
    /// for line in journal.lines() {
    ///     if let JournalLine::Known(entry) = parse::<Entry>(line)? {
    ///         scorer.fold(&entry);
    ///     }
    /// }
    /// assert_eq!(scorer.answers(), 1);
    /// let standings = scorer.standings(1_760_000_001_000);
    /// assert_eq!(standings.len(), catalogue.devices().len());
    /// # Ok::<(), plagal::journal::JournalFault>(())
    /// ```
    pub fn fold(&mut self, entry: &Entry) {
        self.fold_scored(&entry.scored());
    }

    /// The same from the part of an entry that matters here.
    pub fn fold_scored(&mut self, entry: &ScoredEntry<'_>) {
        self.fold_digest(&self.digester.digest(entry));
    }

    /// What prepares entries for [`Self::fold_digest`].
    #[must_use]
    pub fn digester(&self) -> &Digester {
        &self.digester
    }

    /// The same from a digest that this scorer's [`Digester`] made.
    pub fn fold_digest(&mut self, entry: &Digest) {
        self.turn += 1;
        self.recent.start();
        for slot in &entry.slots {
            self.answers += 1;
            self.strangers += u64::from(slot.devices.is_empty());
            for device in &slot.devices {
                let missed = (slot.credit < 1.0).then_some(Miss {
                    device: *device,
                    heard_as: slot.heard_as,
                });
                self.recent.add(*device, missed);
                self.answer(*device, slot, entry);
            }
            self.habits.count(slot);
        }
    }

    /// The chance of a right answer to each slot of a question not yet folded in; none for
    /// a slot whose devices the catalogue does not hold.
    #[must_use]
    pub fn predict(&self, entry: &ScoredEntry<'_>) -> Vec<Option<f64>> {
        let entry = self.digester.digest(entry);
        let chance = |device: usize, response: &Response| {
            let repeated = self.recent.was_last(device);
            let before = self.before(device, &entry, repeated);
            self.outlook_before(device, &before, response)
                .expected(response)
        };
        let slot = |slot: &SlotDigest| {
            let response = self.response_to(slot, &entry);
            let devices = slot.devices.iter();
            let sum: f64 = devices.map(|device| chance(*device, &response)).sum();
            (!slot.devices.is_empty()).then(|| sum * slot.share())
        };
        entry.slots.iter().map(slot).collect()
    }

    fn answer(&mut self, device: usize, slot: &SlotDigest, entry: &Digest) {
        let before = self.before(device, entry, self.recent.was_before(device));
        let response = self.response_to(slot, entry);
        let likely = self
            .filter
            .learn(device, &before, &response, slot.credit, slot.share());
        let (kept, _) = self.model.forgetting(before.since);
        let worth = (slot.credit, slot.share());
        self.all_or_none
            .learn(device, kept, &response, worth, likely);
        let tally = &mut self.tallies[device];
        tally.count(slot.credit, entry.time, response.guess < HABIT);
        if let Some(right) = slot.offers.first() {
            tally.was_asked_by(*right);
        }
        tally.take_turn(slot.share(), self.turn);
        self.rows[device].count(slot.heard_as.filter(|heard| *heard != device));
    }

    fn before(&self, device: usize, entry: &Digest, repeated: bool) -> Before {
        Before {
            repeated,
            ease: entry.ease,
            ..self.before_any(device, entry.time)
        }
    }

    /// What goes before a middling exemplar, asked out of the blue.
    fn before_any(&self, device: usize, now: u64) -> Before {
        let tally = &self.tallies[device];
        Before {
            since: tally.last.map_or(0, |last| now.saturating_sub(last)),
            answers: tally.asked,
            ..Before::default()
        }
    }

    /// What is believed of a device's ability at `now`, asked out of the blue.
    pub(super) fn belief(&self, device: usize, now: u64) -> Gaussian {
        self.filter.belief(device, &self.before_any(device, now))
    }

    /// What is believed of a device at `now`, asked out of the blue.
    pub(super) fn outlook(&self, device: usize, now: u64, response: &Response) -> Outlook {
        self.outlook_before(device, &self.before_any(device, now), response)
    }

    fn outlook_before(&self, device: usize, before: &Before, response: &Response) -> Outlook {
        let (kept, _) = self.model.forgetting(before.since);
        Outlook {
            ability: self.filter.belief(device, before),
            heard: self.all_or_none.heard(device, kept),
            chances: self.all_or_none.chances(response),
            trust: self.all_or_none.trust(),
        }
    }

    pub(super) fn own_pace(&self, device: usize) -> f64 {
        self.filter.own_pace(device)
    }

    pub(super) fn weight_of_ease(&self) -> f64 {
        self.filter.weight_of_ease()
    }

    /// How an answer comes about with so many on offer, from an exemplar of this ease.
    pub(super) fn response(&self, answers: u32, ease: f64) -> Response {
        Response {
            guess: guess(answers).min(1.0 - self.model.slip),
            slip: self.model.slip,
            offset: ease,
        }
    }

    /// How the answer to a slot comes about, habits and all.
    fn response_to(&self, slot: &SlotDigest, entry: &Digest) -> Response {
        let blind = self.response(entry.answers, entry.ease);
        if entry.is_explained {
            return blind;
        }
        match self.habits.guess(slot) {
            Some(guess) => Response {
                guess: guess.min(1.0 - blind.slip),
                ..blind
            },
            None => blind,
        }
    }

    /// How much of what is not heard is named as the device is, 0 to 1.
    pub(super) fn habit(&self, device: usize) -> f64 {
        let (mut said, mut all) = (0.0, 0.0);
        for (answer, count) in &self.tallies[device].answers {
            said += count * self.habits.share(*answer);
            all += count;
        }
        if all > 0.0 { said / all } else { 0.0 }
    }

    /// The answers that are given more often than they are right, the strongest first.
    #[must_use]
    pub fn biases(&self) -> Vec<Bias> {
        self.habits.strong()
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

//! A drill as a pure machine: events in, effects out.

use std::sync::Arc;

use super::aim::Aim;
use super::ask::{Ask, Mark};
use super::drill::Drill;
use super::event::{Answered, Effect, Event, Millis};
use super::hearing::Hearing;
use super::nearness::nearness;
use super::question::Question;
use super::tally::Tally;
use crate::devices::{Catalogue, DeviceId};
use crate::theory::Notation;

/// So many devices are explained together.
const EXPLAINED: usize = 3;

/// Where a session stands.
#[derive(Clone, Debug, PartialEq)]
pub enum State {
    /// A question has been wanted and has not come.
    Waiting,
    /// A question waits for its answers.
    Asking(Box<Asking>),
    /// The answers are marked and shown.
    Marked(Box<Answered>),
    /// The drill is over.
    Finished,
}

/// A question that is being answered.
#[derive(Clone, Debug, PartialEq)]
pub struct Asking {
    /// Its asks hold the answers given so far.
    pub question: Question,
    /// Why it is asked: told with the marks, because it may give the answer away.
    pub reason: String,
    /// Devices to explain before the answer: the one that is asked for among those that
    /// it is confused with, by their names.
    pub explained: Vec<DeviceId>,
    /// The ask that the next answer belongs to.
    pub current: usize,
    /// How often it was heard again.
    pub replays: u32,
    /// When the last sound began or ended.
    heard: Millis,
}

impl Asking {
    /// The ask that the next answer belongs to.
    #[must_use]
    pub fn ask(&self) -> &Ask {
        &self.question.asks[self.current]
    }

    /// Whether every ask has an answer.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.question.asks.iter().all(is_answered)
    }

    /// The asks without an answer, in the order in which answers come: the current one
    /// first, then counted round.
    pub fn open(&self) -> impl Iterator<Item = usize> {
        let count = self.question.asks.len();
        let order = (0..count).map(move |step| (self.current + step) % count);
        order.filter(|ask| !is_answered(&self.question.asks[*ask]))
    }
}

fn is_answered(ask: &Ask) -> bool {
    ask.given(Notation::Text).is_some()
}

/// A run of questions.
#[derive(Clone, Debug)]
pub struct Session {
    drill: Drill,
    catalogue: Arc<Catalogue>,
    state: State,
    tally: Tally,
}

impl Session {
    /// A session and the effect that begins it.
    #[must_use]
    pub fn new(drill: Drill, catalogue: Arc<Catalogue>) -> (Self, Vec<Effect>) {
        let session = Self {
            drill,
            catalogue,
            state: State::Waiting,
            tally: Tally::default(),
        };
        (session, vec![Effect::WantQuestion])
    }

    /// The settings of the drill.
    #[must_use]
    pub fn drill(&self) -> &Drill {
        &self.drill
    }

    /// The devices that are found in lines.
    #[must_use]
    pub fn catalogue(&self) -> &Catalogue {
        &self.catalogue
    }

    /// Where it stands.
    #[must_use]
    pub fn state(&self) -> &State {
        &self.state
    }

    /// The question that is open or marked.
    #[must_use]
    pub fn question(&self) -> Option<&Question> {
        match &self.state {
            State::Asking(asking) => Some(&asking.question),
            State::Marked(answered) => Some(&answered.question),
            State::Waiting | State::Finished => None,
        }
    }

    /// The answers so far, counted.
    #[must_use]
    pub fn tally(&self) -> &Tally {
        &self.tally
    }

    /// Takes an event in. Events that make no sense in this state do nothing.
    pub fn step(&mut self, event: Event) -> Vec<Effect> {
        match event {
            Event::Begin {
                wanted,
                reason,
                aim,
                seed,
                now,
            } => self.begin(&wanted, reason, &aim, seed, now),
            Event::Type { text, now } => self.typed(&text, now),
            Event::Choose { choice, now } => self.choose(choice, now),
            Event::Toggle { slot } => self.toggle(slot),
            Event::Select { ask } => self.select(ask),
            Event::Submit { now } => self.submit(now),
            Event::Hear { hearing, now } => self.hear(&hearing, now),
            Event::Silence { now } => {
                if let State::Asking(asking) = &mut self.state {
                    asking.heard = now;
                }
                Vec::new()
            }
            Event::Next => self.next(),
            Event::Leave => {
                self.state = State::Finished;
                vec![Effect::Stop, Effect::Finished]
            }
        }
    }

    fn begin(
        &mut self,
        wanted: &DeviceId,
        reason: String,
        aim: &Aim,
        seed: u64,
        now: Millis,
    ) -> Vec<Effect> {
        if self.state != State::Waiting {
            return Vec::new();
        }
        let question = match Question::aimed(&self.drill, &self.catalogue, wanted, aim, seed) {
            Ok(question) => question,
            Err(refused) => return vec![Effect::Refused(refused)],
        };
        let explained = if aim.explain {
            self.explained(wanted)
        } else {
            Vec::new()
        };
        let asking = Asking {
            question,
            reason,
            explained,
            current: 0,
            replays: 0,
            heard: now,
        };
        self.state = State::Asking(Box::new(asking));
        self.play(&Hearing::Question)
    }

    /// A device with the nearest of its neighbours: they are told apart, and which of
    /// them sounds is still to be heard.
    fn explained(&self, wanted: &DeviceId) -> Vec<DeviceId> {
        let Some(device) = self.catalogue.get(wanted) else {
            return Vec::new();
        };
        let is_met = |id: &&DeviceId| self.drill.devices.contains(id);
        let (met, rest): (Vec<_>, Vec<_>) = device.neighbours.iter().partition(is_met);
        let others = met.into_iter().chain(rest);
        let mut all: Vec<_> = others
            .filter_map(|id| self.catalogue.get(id))
            .take(EXPLAINED - 1)
            .chain([device])
            .collect();
        // Alone it would be given away.
        if all.len() < 2 {
            return Vec::new();
        }
        all.sort_by_key(|device| device.name());
        all.into_iter().map(|device| device.id.clone()).collect()
    }

    /// The ask that the next answer belongs to.
    fn open_ask(&mut self) -> Option<&mut Ask> {
        match &mut self.state {
            State::Asking(asking) => asking.question.asks.get_mut(asking.current),
            State::Waiting | State::Marked(_) | State::Finished => None,
        }
    }

    fn typed(&mut self, text: &str, now: Millis) -> Vec<Effect> {
        let six = self.drill.six;
        match self.open_ask().map(|ask| ask.read(text.trim(), six)) {
            Some(Ok(())) => self.answered(now),
            Some(Err(error)) => vec![Effect::Misread(error)],
            None => Vec::new(),
        }
    }

    fn choose(&mut self, choice: usize, now: Millis) -> Vec<Effect> {
        match self.open_ask().map(|ask| ask.choose(choice)) {
            Some(true) => self.answered(now),
            Some(false) | None => Vec::new(),
        }
    }

    /// On to the next ask; a question with one ask is marked at once.
    fn answered(&mut self, now: Millis) -> Vec<Effect> {
        let State::Asking(asking) = &mut self.state else {
            return Vec::new();
        };
        if asking.question.asks.len() == 1 {
            return self.submit(now);
        }
        let next = asking.open().next();
        asking.current = next.unwrap_or(asking.current);
        Vec::new()
    }

    fn toggle(&mut self, slot: usize) -> Vec<Effect> {
        if let Some(ask) = self.open_ask() {
            ask.toggle(slot);
        }
        Vec::new()
    }

    fn select(&mut self, ask: usize) -> Vec<Effect> {
        if let State::Asking(asking) = &mut self.state
            && ask < asking.question.asks.len()
        {
            asking.current = ask;
        }
        Vec::new()
    }

    fn submit(&mut self, now: Millis) -> Vec<Effect> {
        let State::Asking(asking) = &self.state else {
            return Vec::new();
        };
        let question = &asking.question;
        let material = question.material();
        let marks = question
            .asks
            .iter()
            .map(|ask| ask.mark(material, &self.catalogue))
            .collect::<Option<Vec<Mark>>>();
        let Some(marks) = marks else {
            return Vec::new();
        };
        let playback = |(ask, mark): (&Ask, &Mark)| match question.other {
            Some(_) => Some(Hearing::Other),
            None => {
                let line = ask.playback(mark, material, &self.catalogue)?;
                Some(Hearing::With(Box::new(line)))
            }
        };
        let playback = question.asks.iter().zip(&marks).map(playback).collect();
        let answered = Answered {
            question: question.clone(),
            reason: asking.reason.clone(),
            index: self.tally.questions,
            at: now,
            thinking: now.saturating_sub(asking.heard),
            replays: asking.replays,
            explained: asking.explained.len() as u32,
            nearness: nearness(question, &self.catalogue),
            marks,
            playback,
        };
        self.tally.count(&answered);
        self.state = State::Marked(Box::new(answered.clone()));
        vec![Effect::Record(Box::new(answered))]
    }

    fn hear(&mut self, hearing: &Hearing, now: Millis) -> Vec<Effect> {
        if let State::Asking(asking) = &mut self.state {
            // What an answer would sound like may be heard only once it is marked.
            if hearing.tells() {
                return Vec::new();
            }
            asking.replays += 1;
            asking.heard = now;
        }
        self.play(hearing)
    }

    fn play(&self, hearing: &Hearing) -> Vec<Effect> {
        let (question, open) = match &self.state {
            State::Asking(asking) => (&asking.question, true),
            State::Marked(answered) => (&answered.question, false),
            State::Waiting | State::Finished => return Vec::new(),
        };
        // The key may be what is asked.
        let gives_home_away = open && *hearing == Hearing::Key && question.asks_for_home();
        if gives_home_away {
            return Vec::new();
        }
        match question.programme(hearing, open) {
            Ok(programme) => vec![Effect::Play(programme)],
            Err(error) => vec![Effect::CannotSound(error)],
        }
    }

    fn next(&mut self) -> Vec<Effect> {
        match self.state {
            State::Marked(_) if self.tally.questions >= self.drill.questions => {
                self.state = State::Finished;
                vec![Effect::Stop, Effect::Finished]
            }
            State::Marked(_) => {
                self.state = State::Waiting;
                vec![Effect::Stop, Effect::WantQuestion]
            }
            State::Waiting | State::Asking(_) | State::Finished => Vec::new(),
        }
    }
}

//! Runs sessions: every event goes through here, and what the session wants is done.

use std::collections::VecDeque;
use std::fmt;
use std::sync::Arc;

use super::keeper::Keeper;
use super::performer::Performer;
use super::steering::aim;
use crate::devices::{Catalogue, DeviceId};
use crate::host::clock;
use crate::host::journal_file::{KeepError, Rescued, Unsaved};
use crate::host::player;
use crate::quiz::{
    Drill, Effect, Event, Misread, NoQuestion, Question, Session, State, question_seed,
};
use crate::scorer::{Reach, Wishes};
use crate::theory::TooRemote;

/// Something to tell the pupil.
#[derive(Debug)]
pub enum Notice {
    /// What became of the sound device.
    Sound(player::Notice),
    /// The answer could not be read.
    Misread(Misread),
    /// A chord has no notes in its key.
    CannotSound(TooRemote),
    /// An answer is not on disk.
    NotKept(KeepError),
    /// No question could be made.
    Refused(NoQuestion),
    /// The exercise has nothing that may be asked.
    NothingToAsk,
}

impl Notice {
    /// Whether nothing went wrong.
    #[must_use]
    pub fn is_good(&self) -> bool {
        match self {
            Self::Sound(player::Notice::Opened(_)) => true,
            Self::Sound(player::Notice::Lost | player::Notice::Failed(_))
            | Self::Misread(_)
            | Self::CannotSound(_)
            | Self::NotKept(_)
            | Self::Refused(_)
            | Self::NothingToAsk => false,
        }
    }
}

impl fmt::Display for Notice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sound(notice) => notice.fmt(f),
            Self::Misread(error) => error.fmt(f),
            Self::CannotSound(error) => error.fmt(f),
            Self::NotKept(error) => error.fmt(f),
            Self::Refused(error) => error.fmt(f),
            Self::NothingToAsk => f.write_str("the exercise has no device that may be asked"),
        }
    }
}

/// A drill to begin.
#[derive(Clone, Debug, PartialEq)]
pub struct Start {
    /// What is asked, and how.
    pub drill: Drill,
    /// What the exercise asks of the choice of devices.
    pub wishes: Wishes,
    /// The seed of the drill.
    pub seed: u64,
}

/// A drill under way.
struct Running {
    session: Session,
    wishes: Wishes,
    seed: u64,
    /// The question that was answered last.
    before: Option<Question>,
}

/// One pupil's practice: drills, one at a time, with a journal and a player.
pub struct Practice {
    catalogue: Arc<Catalogue>,
    keeper: Keeper,
    performer: Performer,
    running: Option<Running>,
    notices: VecDeque<Notice>,
}

impl Practice {
    /// No drill yet.
    #[must_use]
    pub fn new(catalogue: Arc<Catalogue>, keeper: Keeper, performer: Performer) -> Self {
        Self {
            catalogue,
            keeper,
            performer,
            running: None,
            notices: VecDeque::new(),
        }
    }

    /// Begins a drill: its first question sounds as soon as it is rendered.
    pub fn begin(&mut self, start: Start) {
        let Start {
            drill,
            mut wishes,
            seed,
        } = start;
        wishes.reach = Reach::of(&drill);
        let (session, effects) = Session::new(drill, Arc::clone(&self.catalogue));
        self.running = Some(Running {
            session,
            wishes,
            seed,
            before: None,
        });
        self.carry_out(effects);
    }

    /// The devices that are asked and found.
    #[must_use]
    pub fn catalogue(&self) -> &Arc<Catalogue> {
        &self.catalogue
    }

    /// The drill that was begun last, over or not.
    #[must_use]
    pub fn session(&self) -> Option<&Session> {
        self.running.as_ref().map(|running| &running.session)
    }

    /// What keeps the answers.
    #[must_use]
    pub fn keeper(&self) -> &Keeper {
        &self.keeper
    }

    /// What sounds the questions.
    #[must_use]
    pub fn performer(&self) -> &Performer {
        &self.performer
    }

    /// The same, to be told something.
    pub fn performer_mut(&mut self) -> &mut Performer {
        &mut self.performer
    }

    /// At the end of the practice, however it ends: whatever the journal has refused so far
    /// is written to it, or else said to be in a rescue file.
    ///
    /// # Errors
    /// If it is written nowhere; the answers come back.
    pub fn settle(&mut self) -> Result<Option<Rescued>, Unsaved> {
        self.keeper.settle()
    }

    /// Whether no drill is under way.
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.session()
            .is_none_or(|session| *session.state() == State::Finished)
    }

    /// Takes an event in and does what the session then wants.
    pub fn step(&mut self, event: Event) {
        if let Some(running) = &mut self.running {
            let effects = running.session.step(event);
            self.carry_out(effects);
        }
    }

    /// Goes on with the sound; call at every turn of the event loop.
    pub fn poll(&mut self) {
        let (notices, ended) = self.performer.poll();
        self.notices.extend(notices.into_iter().map(Notice::Sound));
        if ended {
            self.step(Event::Silence { now: clock::now() });
        }
    }

    /// The oldest thing that has not been told yet.
    pub fn notice(&mut self) -> Option<Notice> {
        self.notices.pop_front()
    }

    fn carry_out(&mut self, effects: Vec<Effect>) {
        for effect in effects {
            match effect {
                Effect::Play(programme) => self.performer.play(programme),
                Effect::Stop => self.performer.stop(),
                Effect::Record(answered) => self.record(&answered),
                Effect::WantQuestion => self.ask(),
                Effect::Misread(error) => self.notices.push_back(Notice::Misread(error)),
                Effect::CannotSound(error) => self.notices.push_back(Notice::CannotSound(error)),
                Effect::Refused(refused) => self.give_up(Notice::Refused(refused)),
                Effect::Finished => {}
            }
        }
    }

    fn record(&mut self, answered: &crate::quiz::Answered) {
        let Some(running) = &mut self.running else {
            return;
        };
        running.before = Some(answered.question.clone());
        let exercise = &running.session.drill().exercise;
        if let Err(error) = self
            .keeper
            .keep(answered, exercise, running.seed, &self.catalogue)
        {
            self.notices.push_back(Notice::NotKept(error));
        }
    }

    /// A drill whose questions cannot be made ends, and says why.
    fn give_up(&mut self, notice: Notice) {
        self.notices.push_back(notice);
        self.step(Event::Leave);
    }

    fn ask(&mut self) {
        let Some(running) = &self.running else { return };
        let now = clock::now();
        let seed = question_seed(running.seed, running.session.tally().questions);
        let pool = &running.session.drill().devices;
        match self.keeper.choose(pool, &running.wishes, now, seed) {
            Some(choice) => {
                let name = |id: &DeviceId| {
                    let device = self.catalogue.get(id);
                    device.map_or_else(|| id.to_string(), |device| device.name().to_owned())
                };
                let reason = choice.reason.words(name);
                let aim = aim(&choice, running.before.as_ref());
                self.step(Event::Begin {
                    wanted: choice.device,
                    reason,
                    aim,
                    seed,
                    now,
                });
            }
            None => self.give_up(Notice::NothingToAsk),
        }
    }
}

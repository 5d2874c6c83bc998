//! The trainer as a whole: which screen is shown, and what a press does there.

use ratatui::Frame;

use super::press::Press;
use super::screens::{AskingScreen, Help, Home, Marked, Over, ProgressScreen};
use super::status_message::StatusMessage;
use super::theme::Theme;
use crate::exercise::Exercise;
use crate::host::{clock, player};
use crate::practice::{Notice, Practice, Start, wishes};
use crate::quiz::State;
use crate::theory::BareSix;

/// What the trainer is started with.
pub struct Setup {
    /// What carries drills out.
    pub practice: Practice,
    /// In the order in which they are learned.
    pub exercises: Vec<Exercise>,
    /// Colours and signs.
    pub theme: Theme,
    /// How a bare six is read.
    pub six: BareSix,
    /// A drill to begin with; else the home screen.
    pub begin: Option<Start>,
    /// Whose answers are kept, where that was named.
    pub learner: Option<String>,
    /// What was found while opening files, to be told at once.
    pub told: Vec<String>,
}

/// The screen that is shown.
pub(super) enum Screen {
    Home(Home),
    Asking(AskingScreen),
    Marked(Marked),
    Over(Over),
    Progress(ProgressScreen),
    /// Help, over another screen.
    Help(Help, Box<Screen>),
}

/// The running trainer.
pub struct App {
    pub(super) practice: Practice,
    pub(super) exercises: Vec<Exercise>,
    pub(super) theme: Theme,
    pub(super) six: BareSix,
    pub(super) learner: Option<String>,
    pub(super) screen: Screen,
    /// The latest thing to tell.
    pub(super) status: Option<StatusMessage>,
    pub(super) is_over: bool,
    /// Whether the process is to be stopped until the shell goes on with it.
    suspension: bool,
}

impl App {
    /// Begins on the home screen.
    #[must_use]
    pub fn new(setup: Setup) -> Self {
        let Setup {
            practice,
            exercises,
            theme,
            six,
            begin,
            learner,
            told,
        } = setup;
        let home = Home::new(&exercises, &practice);
        let mut app = Self {
            practice,
            exercises,
            theme,
            six,
            learner,
            screen: Screen::Home(home),
            status: (!told.is_empty()).then(|| StatusMessage::Fault(told.join("; "))),
            is_over: false,
            suspension: false,
        };
        if let Some(start) = begin {
            app.begin(start);
        }
        app
    }

    /// Whether the trainer is to end.
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.is_over
    }

    /// Whether something moves on the screen by itself.
    #[must_use]
    pub fn is_moving(&self) -> bool {
        self.practice.performer().is_busy()
    }

    /// Begins an exercise as the home screen does.
    pub(super) fn begin_exercise(&mut self, index: usize) {
        let exercise = &self.exercises[index];
        let start = Start {
            drill: exercise.drill(self.six),
            wishes: wishes(exercise),
            seed: clock::fresh_seed(),
        };
        self.begin(start);
    }

    fn begin(&mut self, start: Start) {
        self.status = None;
        self.practice.begin(start);
        self.follow();
    }

    /// Shows the screen that belongs to where the session stands.
    pub(super) fn follow(&mut self) {
        let Some(session) = self.practice.session() else {
            return;
        };
        self.screen = match session.state() {
            State::Asking(_) | State::Waiting => Screen::Asking(AskingScreen::default()),
            State::Marked(answered) => Screen::Marked(Marked::new(answered)),
            State::Finished => Screen::Over(Over),
        };
    }

    pub(super) fn go_home(&mut self) {
        self.screen = Screen::Home(Home::new(&self.exercises, &self.practice));
    }

    /// Goes on with the sound and takes up what it has to tell.
    pub fn poll(&mut self) {
        self.practice.poll();
        while let Some(notice) = self.practice.notice() {
            let text = notice.to_string();
            self.status = match notice {
                // The screens tell for as long as it is so.
                Notice::Sound(player::Notice::Failed(_)) => None,
                good if good.is_good() => Some(StatusMessage::Aside(text)),
                _ => Some(StatusMessage::Fault(text)),
            };
        }
    }

    /// Takes a press.
    pub fn press(&mut self, press: Press) {
        match press {
            Press::Interrupt => {
                self.is_over = true;
                return;
            }
            Press::Suspend => {
                self.suspension = true;
                return;
            }
            _ => {}
        }
        self.status = None;
        if let Press::Character(step @ ('[' | ']')) = press {
            self.turn(if step == ']' { 3.0 } else { -3.0 });
            return;
        }
        let screen = std::mem::replace(&mut self.screen, Screen::Over(Over));
        if press == Press::Character('?') && !matches!(screen, Screen::Help(..)) {
            self.screen = Screen::Help(Help::default(), Box::new(screen));
            return;
        }
        // A screen that wants another puts it in place; else it is put back.
        let next = match screen {
            Screen::Home(home) => home.press(press, self),
            Screen::Asking(asking) => asking.press(press, self),
            Screen::Marked(marked) => marked.press(press, self),
            Screen::Over(over) => over.press(press, self),
            Screen::Progress(progress) => progress.press(press, self),
            Screen::Help(help, below) if help.scrolls(press) => Some(Screen::Help(help, below)),
            Screen::Help(_, below) => Some(*below),
        };
        if let Some(screen) = next {
            self.screen = screen;
        }
        self.poll();
    }

    /// Takes a pasted text: into the line where an answer is typed, and never as presses.
    pub fn paste(&mut self, text: &str) {
        let is_taken = match &mut self.screen {
            Screen::Asking(asking) => asking.paste(text, &self.practice),
            Screen::Home(_)
            | Screen::Marked(_)
            | Screen::Over(_)
            | Screen::Progress(_)
            | Screen::Help(..) => false,
        };
        self.status = (!is_taken).then(|| {
            StatusMessage::Aside("a pasted text is no press, and nothing is typed here".to_owned())
        });
    }

    /// Whether the process is to be stopped, since this was asked last.
    pub(super) fn take_suspension(&mut self) -> bool {
        std::mem::take(&mut self.suspension)
    }

    /// Lets nothing sound.
    pub(super) fn hush(&mut self) {
        self.practice.performer_mut().stop();
    }

    /// Louder or softer, in decibels.
    fn turn(&mut self, decibels: f32) {
        let level = self.practice.performer().level().louder_by(decibels);
        self.practice.performer_mut().set_level(level);
        self.status = Some(StatusMessage::Aside(format!("volume {level}")));
    }

    /// Draws the screen.
    pub fn draw(&self, frame: &mut Frame<'_>) {
        match &self.screen {
            Screen::Home(home) => home.draw(self, frame),
            Screen::Asking(asking) => asking.draw(self, frame),
            Screen::Marked(marked) => marked.draw(self, frame),
            Screen::Over(over) => over.draw(self, frame),
            Screen::Progress(progress) => progress.draw(self, frame),
            Screen::Help(help, _) => help.draw(self, frame),
        }
    }
}

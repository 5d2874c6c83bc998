//! The drill line by line: what is asked on standard output, answers on standard input.

use std::io::{self, BufRead};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

use super::context::{Context, print};
use super::failure::Failure;
use super::plain_words::{self, Word};
use super::practising::{Practising, end, watch_ends};
use super::{plain_marks, plain_question, plain_reply};
use crate::exercise::Exercise;
use crate::host::clock;
use crate::host::signals::Signals;
use crate::practice::{Practice, Start};
use crate::quiz::{Asking, Event, Hearing, Session, State};

/// How often the sound is looked after while no line comes.
const GLANCE: Duration = Duration::from_millis(20);

/// Runs a drill to its end, or to the end of standard input.
pub(super) fn drill(
    practising: Practising,
    exercise: &Exercise,
    start: Start,
    context: &Context,
) -> Result<(), Failure> {
    let Practising {
        mut practice, told, ..
    } = practising;
    for text in told {
        plain_words::tell(context, &text);
    }
    if !context.json {
        let seed = start.seed;
        let title = context.style.safe(&exercise.title);
        print(&format!("{title} (seed {seed})\n{}\n", plain_words::HELP))?;
    }
    practice.begin(start);
    let mut run = Run {
        practice,
        context,
        lines: lines(),
        signals: watch_ends()?,
        instruction: "",
    };
    let outcome = run.drill();
    // Whatever ended it: no answer may be lost.
    end(run.practice, &run.signals, outcome)
}

/// The lines of standard input, read on a thread of their own.
fn lines() -> Receiver<String> {
    let (send, receive) = channel();
    thread::spawn(move || {
        for line in io::stdin().lock().lines() {
            let Ok(line) = line else { return };
            if send.send(line).is_err() {
                return;
            }
        }
    });
    receive
}

struct Run<'a> {
    practice: Practice,
    context: &'a Context,
    lines: Receiver<String>,
    signals: Signals,
    /// How answers are typed, as it was told last.
    instruction: &'static str,
}

impl Run<'_> {
    fn drill(&mut self) -> Result<(), Failure> {
        while !self.practice.is_over() {
            self.tell_notices();
            self.question()?;
        }
        self.tell_notices();
        match self.practice.session() {
            Some(session) => {
                plain_marks::end(self.context, session.tally(), self.practice.catalogue())
            }
            None => Ok(()),
        }
    }

    fn tell_notices(&mut self) {
        while let Some(notice) = self.practice.notice() {
            plain_words::tell(self.context, &notice.to_string());
        }
    }

    /// Asks one question and tells its marks.
    fn question(&mut self) -> Result<(), Failure> {
        if let Some(asking) = self.asking() {
            let instruction = asking.question.instruction();
            if instruction != self.instruction && !self.context.json {
                print(&format!("{instruction}\n"))?;
            }
            plain_question::question(self.context, asking, self.practice.catalogue())?;
            self.instruction = instruction;
        }
        while let Some(asking) = self.asking() {
            plain_question::prompt(self.context, asking)?;
            let Some(line) = self.line() else {
                self.practice.step(Event::Leave);
                return Ok(());
            };
            self.take(line.trim());
            self.tell_notices();
        }
        if let Some(State::Marked(answered)) = self.practice.session().map(Session::state) {
            plain_marks::marks(self.context, answered, self.practice.catalogue())?;
        }
        self.after_marks()
    }

    /// Replays until the next question is wanted. With `--json` it comes at once.
    fn after_marks(&mut self) -> Result<(), Failure> {
        while let Some(State::Marked(answered)) = self.practice.session().map(Session::state) {
            if self.context.json {
                self.practice.step(Event::Next);
                return Ok(());
            }
            let mine = plain_marks::playback(answered);
            let Some(word) = self.line() else {
                self.practice.step(Event::Leave);
                return Ok(());
            };
            match (Word::of(word.trim()), mine) {
                (Word::Mine, Some(hearing)) => self.hear(hearing),
                (Word::Hear(hearing), _) => self.hear(hearing),
                (Word::Chord(number), _) => self.chord(number),
                (Word::Help, _) => plain_words::tell(self.context, plain_words::HELP),
                (Word::Leave, _) => self.practice.step(Event::Leave),
                (Word::Nothing | Word::Mine | Word::Answer(_), _) => {
                    self.practice.step(Event::Next);
                }
            }
            self.tell_notices();
        }
        Ok(())
    }

    fn hear(&mut self, hearing: Hearing) {
        self.practice.step(Event::Hear {
            hearing,
            now: clock::now(),
        });
    }

    /// Plays the chord of that number, from 1, or the one that is asked.
    fn chord(&mut self, number: Option<usize>) {
        let Some(question) = self.practice.session().and_then(Session::question) else {
            return;
        };
        let count = question.progression.line.slots().len();
        let asked = match self.asking() {
            Some(asking) => asking.ask().slot(),
            None => question.asks.iter().find_map(|ask| ask.slot()),
        };
        let slot = match number {
            Some(number) => number.checked_sub(1).filter(|slot| *slot < count),
            None => Some(asked.unwrap_or(0)),
        };
        match slot {
            Some(slot) => self.hear(Hearing::Slot(slot)),
            None => {
                let told = format!("there is no such chord; expected a number from 1 to {count}");
                plain_words::tell(self.context, &told);
            }
        }
    }

    fn asking(&self) -> Option<&Asking> {
        match self.practice.session()?.state() {
            State::Asking(asking) => Some(asking),
            State::Waiting | State::Marked(_) | State::Finished => None,
        }
    }

    fn take(&mut self, line: &str) {
        match Word::of(line) {
            Word::Nothing => self.hear(Hearing::Line),
            Word::Chord(number) => self.chord(number),
            Word::Hear(hearing) => self.hear(hearing),
            Word::Help => self.help(),
            Word::Leave => self.practice.step(Event::Leave),
            Word::Mine => plain_words::tell(self.context, "`mine` can be heard once it is marked"),
            Word::Answer(text) => self.answer(text),
        }
    }

    fn help(&self) {
        plain_words::tell(self.context, plain_words::HELP);
        plain_words::tell(self.context, self.instruction);
    }

    /// Answers as far as the line can be read: what follows a misread numeral is left, or
    /// it would go to the wrong chord.
    fn answer(&mut self, line: &str) {
        let now = clock::now();
        let Some(asking) = self.asking() else {
            return;
        };
        let events = match plain_reply::read(line, asking, now) {
            Ok(events) => events,
            Err(told) => {
                plain_words::tell(self.context, &self.context.style.safe(&told));
                return;
            }
        };
        for event in events {
            let before = self.asking().cloned();
            self.practice.step(event);
            if self.asking() == before.as_ref() {
                return;
            }
        }
        if self.asking().is_some_and(Asking::is_complete) {
            self.practice.step(Event::Submit { now });
        }
    }

    /// The next line, the sound being looked after until it comes.
    fn line(&mut self) -> Option<String> {
        loop {
            if self.signals.ended().is_some() {
                return None;
            }
            self.practice.poll();
            self.tell_notices();
            match self.lines.recv_timeout(GLANCE) {
                Ok(line) => return Some(line),
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => return None,
            }
        }
    }
}

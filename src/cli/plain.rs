//! The drill line by line: what is asked on standard output, answers on standard input.

use std::io::{self, BufRead};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

use super::context::{Context, print};
use super::failure::Failure;
use super::plain_words::{self, Word};
use super::practising::{Practising, settle};
use crate::exercise::Exercise;
use crate::host::clock;
use crate::practice::{Practice, Start};
use crate::quiz::{Answer, Event, Form, Hearing, Session, State};

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
        waiting: Vec::new(),
    };
    while !run.practice.is_over() {
        run.tell_notices();
        run.question()?;
    }
    run.tell_notices();
    if let Some(session) = run.practice.session() {
        plain_words::end(context, session.tally(), run.practice.catalogue())?;
    }
    settle(run.practice, context)
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
    /// Words of a line that have not been taken yet.
    waiting: Vec<String>,
}

impl Run<'_> {
    fn tell_notices(&mut self) {
        while let Some(notice) = self.practice.notice() {
            plain_words::tell(self.context, &notice.to_string());
        }
    }

    /// Asks one question and tells its marks.
    fn question(&mut self) -> Result<(), Failure> {
        if let Some(State::Asking(asking)) = self.practice.session().map(Session::state) {
            plain_words::question(self.context, asking, self.practice.catalogue())?;
        }
        while let Some(State::Asking(_)) = self.practice.session().map(Session::state) {
            self.prompt()?;
            let Some(word) = self.word() else {
                self.practice.step(Event::Leave);
                return Ok(());
            };
            self.take(&word)?;
            self.tell_notices();
        }
        if let Some(State::Marked(answered)) = self.practice.session().map(Session::state) {
            plain_words::marks(self.context, answered, self.practice.catalogue())?;
        }
        self.after_marks()
    }

    /// Replays until the next question is wanted. With `--json` it comes at once.
    fn after_marks(&mut self) -> Result<(), Failure> {
        self.waiting.clear();
        while let Some(State::Marked(answered)) = self.practice.session().map(Session::state) {
            if self.context.json {
                self.practice.step(Event::Next);
                return Ok(());
            }
            let mine =
                answered
                    .question
                    .asks
                    .iter()
                    .zip(&answered.marks)
                    .find_map(|(ask, mark)| match (&mark.answer, ask.slot) {
                        (Answer::Numeral { numeral, .. }, Some(slot)) if !mark.tier.is_right() => {
                            Some(Hearing::With {
                                slot,
                                numeral: numeral.clone(),
                            })
                        }
                        _ => None,
                    });
            let Some(word) = self.line() else {
                self.practice.step(Event::Leave);
                return Ok(());
            };
            match (Word::of(word.trim()), mine) {
                (Word::Mine, Some(hearing)) => self.hear(hearing),
                (Word::Hear(hearing), _) => self.hear(hearing),
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

    fn prompt(&self) -> Result<(), Failure> {
        match self.practice.session().map(Session::state) {
            Some(State::Asking(asking)) if self.waiting.is_empty() => {
                plain_words::prompt(self.context, asking)
            }
            _ => Ok(()),
        }
    }

    fn take(&mut self, word: &str) -> Result<(), Failure> {
        let now = clock::now();
        match Word::of(word) {
            Word::Nothing => self.hear(Hearing::Line),
            Word::Hear(Hearing::Slot(_)) => {
                let slot = match self.practice.session().map(Session::state) {
                    Some(State::Asking(asking)) => asking.ask().slot.unwrap_or(0),
                    _ => 0,
                };
                self.hear(Hearing::Slot(slot));
            }
            Word::Hear(hearing) => self.hear(hearing),
            Word::Leave => self.practice.step(Event::Leave),
            Word::Mine => plain_words::tell(self.context, "`mine` can be heard once it is marked"),
            Word::Answer(text) => self.answer(text, now),
        }
        let complete = matches!(
            self.practice.session().map(Session::state),
            Some(State::Asking(asking)) if asking.is_complete()
        );
        if complete {
            self.practice.step(Event::Submit { now });
        }
        Ok(())
    }

    fn answer(&mut self, text: &str, now: u64) {
        let Some(State::Asking(asking)) = self.practice.session().map(Session::state) else {
            return;
        };
        let form = &asking.ask().form;
        let number = text.parse::<usize>().ok().filter(|number| *number > 0);
        let event = match (form, number) {
            (Form::Numeral { .. }, None) => Event::Type {
                text: text.to_owned(),
                now,
            },
            (Form::Slots, Some(number)) => Event::Toggle { slot: number - 1 },
            (_, Some(number)) => Event::Choose {
                choice: number - 1,
                now,
            },
            (Form::OneOf { .. } | Form::Key { .. } | Form::YesOrNo | Form::Slots, None) => {
                let labels = form.labels(crate::theory::Notation::Text);
                match labels.iter().position(|label| label == text) {
                    Some(choice) => Event::Choose { choice, now },
                    None => {
                        let expected = "expected one of the answers on offer, or its number";
                        let told = format!(
                            "`{}` is not an answer; {expected}",
                            self.context.style.safe(text)
                        );
                        plain_words::tell(self.context, &told);
                        return;
                    }
                }
            }
        };
        self.practice.step(event);
    }

    /// The next word of the input: lines may hold the answers to several chords.
    fn word(&mut self) -> Option<String> {
        if self.waiting.is_empty() {
            let line = self.line()?;
            self.waiting = line.split_whitespace().rev().map(str::to_owned).collect();
        }
        Some(self.waiting.pop().unwrap_or_default())
    }

    /// The next line, the sound being looked after until it comes.
    fn line(&mut self) -> Option<String> {
        loop {
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

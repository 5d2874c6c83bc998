//! What is typed as an answer, to a question of every kind.

use std::sync::{Arc, LazyLock};

use plagal::exercise::Exercise;
use plagal::host::library::EXERCISES;
use plagal::quiz::{Aim, Asking, Effect, Event, QuestionKind, Session, State};
use plagal::theory::BareSix;

use super::files::{CATALOGUE, known};
use super::{music, told};

/// An open question of each built-in exercise, answers typed.
static SESSIONS: LazyLock<Vec<Session>> = LazyLock::new(|| {
    let catalogue = Arc::new(CATALOGUE.clone());
    let read = |(_, text): &(&str, &str)| Exercise::read(text, known()).expect("it is built in");
    let sessions: Vec<Session> = EXERCISES
        .iter()
        .map(read)
        .map(|exercise| {
            let mut drill = exercise.drill(BareSix::AddedSixth);
            drill.answers = 0;
            let wanted = drill.devices[0].clone();
            let (mut session, _) = Session::new(drill, Arc::clone(&catalogue));
            session.step(Event::Begin {
                wanted,
                reason: String::new(),
                aim: Aim::default(),
                seed: 5,
                now: 1,
            });
            assert!(asking(&session).is_some(), "{}", exercise.id);
            session
        })
        .collect();
    let kinds = QuestionKind::ALL.into_iter();
    let missing: Vec<_> = kinds
        .filter(|kind| !sessions.iter().any(|session| session.drill().kind == *kind))
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
    sessions
});

fn asking(session: &Session) -> Option<&Asking> {
    match session.state() {
        State::Asking(asking) => Some(asking),
        State::Waiting | State::Marked(_) | State::Finished => None,
    }
}

/// Types the text to everything that is asked, as long as it is read, and has it marked.
pub(super) fn answer(text: &str, chance: usize) -> bool {
    let mut session = SESSIONS[chance % SESSIONS.len()].clone();
    let mut is_read = false;
    while let Some(before) = asking(&session).cloned() {
        let effects = session.step(Event::Type {
            text: text.to_owned(),
            now: 2,
        });
        for effect in &effects {
            if let Effect::Misread(misread) = effect {
                told(misread);
            }
        }
        match asking(&session) {
            Some(now) if *now == before => break,
            Some(now) if now.is_complete() => {
                is_read = true;
                session.step(Event::Submit { now: 3 });
                break;
            }
            Some(_) | None => is_read = true,
        }
    }
    if let State::Marked(answered) = session.state() {
        for mark in &answered.marks {
            assert!((0.0..=1.0).contains(&mark.credit), "{text:?}: {mark:?}");
        }
    }
    is_read
}

pub(super) fn typed() -> Vec<String> {
    let mut texts = music::words();
    texts.extend(
        [
            "1",
            "2 3",
            "6 b6 5",
            "1 2 b3 #4",
            "minor-four",
            "C",
            "Am",
            "x 2",
            "bar 2",
        ]
        .map(str::to_owned),
    );
    texts
}

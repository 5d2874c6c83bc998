//! The machine as a whole: questions of a drill, and a session driven by events.

mod effects;
mod kinds;

use std::sync::Arc;

use super::*;
use crate::arranging::{Strand, Texture};
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::{Phrasing, Tier};
use crate::theory::{BareSix, Key, Meter, Mode, Notation};

fn catalogue() -> Arc<Catalogue> {
    Arc::new(Catalogue::built_in())
}

fn id(text: &str) -> DeviceId {
    text.parse().expect("a device id")
}

pub(super) fn drill(devices: &[&str]) -> Drill {
    Drill {
        exercise: "trial".to_owned(),
        kind: QuestionKind::NameChords,
        asked: Asked::MarkedChord,
        followed: Followed::Telling,
        devices: devices.iter().map(|text| id(text)).collect(),
        never: Vec::new(),
        keys: Key::everyday()
            .filter(|key| key.mode() == Mode::Major)
            .collect(),
        bars: 4..=8,
        meter: Meter::FourFour,
        tempo: 80..=100,
        key_given: KeyGiven::Cadence,
        answers: 5,
        questions: 2,
        sounds: vec!["electric-piano".to_owned()],
        textures: vec![Texture::HeldChords],
        styles: Vec::new(),
        phrasing: Phrasing::Plain,
        six: BareSix::AddedSixth,
    }
}

const MIXED: [&str; 6] = [
    "minor-four",
    "dominant-of-two",
    "ascending-passing-diminished",
    "backdoor-dominant",
    "two-five-one",
    "tritone-substitute",
];

#[test]
fn the_same_seed_makes_the_same_question() {
    let catalogue = catalogue();
    let drill = drill(&MIXED);
    for device in &drill.devices {
        let one = Question::new(&drill, &catalogue, device, 11);
        assert_eq!(one, Question::new(&drill, &catalogue, device, 11));
        assert_ne!(one, Question::new(&drill, &catalogue, device, 12));
    }
}

#[test]
fn every_question_holds_its_device_and_accepts_its_own_answers() {
    let catalogue = catalogue();
    for asked in Asked::ALL {
        let drill = Drill {
            asked,
            ..drill(&MIXED)
        };
        for seed in 0..60 {
            let wanted = &drill.devices[seed as usize % drill.devices.len()];
            let question = Question::new(&drill, &catalogue, wanted, seed).expect("it can be made");
            assert!(question.progression.occurrence(wanted).is_some());
            assert!(!question.asks.is_empty());
            for ask in &question.asks {
                let labels = ask.labels(Notation::Text);
                assert_eq!(rights(&question, ask, &catalogue), 1, "among {labels:?}");
                assert_eq!(labels.len(), drill.answers);
                let sounding = ask.chord().expect("this kind asks for chords");
                let accepted = sounding.accepted();
                assert!(accepted.iter().all(|name| sounding.judge(name).is_right()));
            }
        }
    }
}

/// How many of the answers on offer are right; of an answer that is read, whether its own
/// truth is and a wrong one is not.
fn rights(question: &Question, ask: &Ask, catalogue: &Catalogue) -> usize {
    let mut ask = ask.clone();
    let is_right = |ask: &Ask| {
        let mark = ask.mark(question.material(), catalogue);
        mark.is_some_and(|mark| mark.tier.is_right())
    };
    if ask.manner() == AnswerManner::Offered {
        let offers = 0..ask.labels(Notation::Text).len();
        return offers
            .filter(|choice| ask.choose(*choice) && is_right(&ask))
            .count();
    }
    assert!(!is_right(&ask), "right before it is answered");
    let truth = ask.truth(Notation::Text);
    ask.read(&truth, BareSix::AddedSixth)
        .expect("its own truth can be read");
    usize::from(is_right(&ask))
}

fn begin(session: &mut Session, wanted: &str, seed: u64) -> Vec<Effect> {
    session.step(Event::Begin {
        wanted: id(wanted),
        reason: "first time".to_owned(),
        aim: Aim::default(),
        seed,
        now: 1000,
    })
}

fn asking(session: &Session) -> &Asking {
    match session.state() {
        State::Asking(asking) => asking,
        other => panic!("a question is being answered, not {other:?}"),
    }
}

#[test]
fn a_session_asks_marks_and_ends() {
    let (mut session, effects) = Session::new(drill(&MIXED), catalogue());
    assert_eq!(effects, [Effect::WantQuestion]);
    let effects = begin(&mut session, "minor-four", 3);
    let [Effect::Play(programme)] = effects.as_slice() else {
        panic!("it plays: {effects:?}")
    };
    assert_eq!(
        programme
            .parts
            .iter()
            .map(|part| part.is_line)
            .collect::<Vec<_>>(),
        [false, true]
    );

    let effects = session.step(Event::Type {
        text: "ivx".to_owned(),
        now: 2000,
    });
    assert!(
        matches!(effects.as_slice(), [Effect::Misread(_)]),
        "{effects:?}"
    );

    session.step(Event::Hear {
        hearing: Hearing::Strand(Strand::Bass),
        now: 3000,
    });
    let effects = session.step(Event::Type {
        text: "ivm6".to_owned(),
        now: 4500,
    });
    let [Effect::Record(answered)] = effects.as_slice() else {
        panic!("recorded: {effects:?}")
    };
    assert_eq!(
        (answered.thinking, answered.replays, answered.index),
        (1500, 1, 0)
    );
    assert_eq!(answered.marks[0].tier, Tier::Right);
    assert_eq!(answered.marks[0].credit, 1.0);

    assert_eq!(
        session.step(Event::Next),
        [Effect::Stop, Effect::WantQuestion]
    );
    begin(&mut session, "dominant-of-two", 4);
    session.step(Event::Type {
        text: "V7/V".to_owned(),
        now: 9000,
    });
    let State::Marked(answered) = session.state() else {
        panic!("it is marked")
    };
    assert_eq!(answered.marks[0].tier, Tier::WrongTarget);
    let tally = session.tally();
    assert_eq!((tally.questions, tally.answers, tally.right), (2, 2, 1));
    assert!((tally.credit - 1.5).abs() < 1e-9);
    let missed: u32 = tally.missed().iter().map(|(_, count)| count.missed()).sum();
    assert!(missed >= 1 && tally.devices.len() >= tally.missed().len());
    assert_eq!(session.step(Event::Next), [Effect::Stop, Effect::Finished]);
}

#[test]
fn several_chords_are_answered_in_any_order_and_marked_together() {
    let drill = Drill {
        asked: Asked::EveryChord,
        ..drill(&["turnaround"])
    };
    let (mut session, _) = Session::new(drill, catalogue());
    begin(&mut session, "turnaround", 8);
    let count = asking(&session).question.asks.len();
    assert!(count > 3);
    session.step(Event::Select { ask: 2 });
    session.step(Event::Type {
        text: "ii".to_owned(),
        now: 1,
    });
    assert_eq!(asking(&session).current, 3 % count);
    assert!(
        session.step(Event::Submit { now: 2 }).is_empty(),
        "there are open places"
    );
    for _ in 1..count {
        session.step(Event::Choose { choice: 0, now: 3 });
    }
    assert!(asking(&session).is_complete());
    let effects = session.step(Event::Submit { now: 4 });
    assert!(
        matches!(effects.as_slice(), [Effect::Record(answered)] if answered.marks.len() == count)
    );
}

#[test]
fn an_answer_can_be_heard_in_the_line_once_it_is_marked() {
    let (mut session, _) = Session::new(drill(&MIXED), catalogue());
    begin(&mut session, "minor-four", 3);
    let slot = asking(&session).ask().slot().expect("a chord is asked");
    let line = &asking(&session).question.progression.line;
    let line = line.with(slot, "IV".parse().expect("a numeral"));
    let hearing = Hearing::With(Box::new(line));
    let hear = Event::Hear { hearing, now: 5 };
    assert!(
        session.step(hear.clone()).is_empty(),
        "not before the answer"
    );
    session.step(Event::Type {
        text: "IV".to_owned(),
        now: 6,
    });
    let mine = session.step(hear);
    let truth = session.step(Event::Hear {
        hearing: Hearing::Line,
        now: 7,
    });
    let (Effect::Play(mine), Effect::Play(truth)) = (&mine[0], &truth[0]) else {
        panic!("both sound")
    };
    assert_ne!(mine.parts[0].passage, truth.parts[0].passage);
}

#[test]
fn events_out_of_place_do_nothing() {
    let (mut session, _) = Session::new(drill(&MIXED), catalogue());
    for event in [
        Event::Next,
        Event::Submit { now: 1 },
        Event::Choose { choice: 0, now: 1 },
        Event::Toggle { slot: 3 },
        Event::Select { ask: 9 },
        Event::Hear {
            hearing: Hearing::Line,
            now: 1,
        },
    ] {
        assert!(session.step(event.clone()).is_empty(), "{event:?}");
    }
    begin(&mut session, "minor-four", 3);
    assert!(
        session
            .step(Event::Choose { choice: 99, now: 1 })
            .is_empty()
    );
    assert!(
        begin(&mut session, "minor-four", 4).is_empty(),
        "one question at a time"
    );
}

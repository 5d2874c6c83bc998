//! The machine as a whole: questions of a drill, and a session driven by events.

use std::sync::Arc;

use super::*;
use crate::arranging::{Strand, Texture};
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::Tier;
use crate::theory::{BareSix, Key, Meter, Mode};

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
                let (Truth::Chord(sounding), Form::Numeral { choices }) = (&ask.truth, &ask.form)
                else {
                    panic!("this kind asks for numerals");
                };
                let right = choices
                    .iter()
                    .filter(|choice| sounding.judge(choice).is_right());
                assert_eq!(
                    right.count(),
                    1,
                    "one right answer on offer among {choices:?}"
                );
                assert_eq!(choices.len(), drill.answers);
                assert!(
                    sounding
                        .accepted()
                        .iter()
                        .all(|name| sounding.judge(name).is_right())
                );
            }
        }
    }
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
    let count = asking(&session).answers.len();
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
    let slot = asking(&session).ask().slot.expect("a chord is asked");
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

/// A device list on which every kind can ask something.
const FOR_ALL_KINDS: [&str; 5] = [
    "minor-four",
    "dominant-of-two",
    "dominant-of-five",
    "off-tonic-opening",
    "sharp-four-diminished",
];

#[test]
fn every_kind_accepts_its_truth_and_refuses_the_rest() {
    let catalogue = catalogue();
    for kind in QuestionKind::ALL {
        let drill = Drill {
            kind,
            ..drill(&FOR_ALL_KINDS)
        };
        let mut made = 0;
        for seed in 0..100 {
            let wanted = &drill.devices[seed as usize % drill.devices.len()];
            let Ok(question) = Question::new(&drill, &catalogue, wanted, seed) else {
                continue;
            };
            made += 1;
            assert_eq!(
                Question::new(&drill, &catalogue, wanted, seed).as_ref(),
                Ok(&question)
            );
            assert!(
                !question
                    .prompt
                    .written(crate::theory::Notation::Text)
                    .is_empty()
                    && !question.asks.is_empty()
            );
            for ask in &question.asks {
                let labels = ask.form.labels(crate::theory::Notation::Text);
                let mut distinct = labels.clone();
                distinct.sort();
                distinct.dedup();
                assert_eq!(distinct.len(), labels.len(), "{kind}: {labels:?}");
                let right = |answer| {
                    Mark::new(&question, ask, answer, &catalogue)
                        .tier
                        .is_right()
                };
                let rights = match (&ask.form, &ask.truth) {
                    (Form::Numeral { choices }, Truth::Chord(_)) => choices
                        .iter()
                        .filter(|c| right(Answer::chosen((*c).clone())))
                        .count(),
                    (Form::OneOf { choices }, Truth::Choice(_)) => (0..choices.len())
                        .filter(|choice| right(Answer::Choice(*choice)))
                        .count(),
                    (Form::Key { choices }, Truth::Key(_)) => choices
                        .iter()
                        .filter(|key| right(Answer::Key(**key)))
                        .count(),
                    (Form::Slots, Truth::Slots(slots)) => {
                        assert!(!right(Answer::Slots(Vec::new())));
                        usize::from(right(Answer::Slots(slots.clone())))
                    }
                    other => panic!("{kind} has a form without its truth: {other:?}"),
                };
                assert_eq!(rights, 1, "{kind}: one right answer");
            }
        }
        assert!(made > 50, "{kind} asked {made} questions of 100");
    }
}

#[test]
fn two_lines_differ_in_one_device_and_are_heard_alike() {
    let catalogue = catalogue();
    let drill = Drill {
        kind: QuestionKind::WhichOfTwo,
        ..drill(&FOR_ALL_KINDS)
    };
    let wanted = id("minor-four");
    let mut firsts = 0;
    for seed in 0..40 {
        let question = Question::new(&drill, &catalogue, &wanted, seed).expect("it can be made");
        let other = question.other.as_ref().expect("there are two lines");
        assert!(other.progression.occurrence(&wanted).is_none());
        let pairs = question
            .progression
            .line
            .numerals()
            .zip(other.progression.line.numerals());
        assert!((1..=2).contains(&pairs.filter(|(one, other)| one != other).count()));
        firsts += u32::from(other.is_first);
        for hearing in [Hearing::Line, Hearing::Slower, Hearing::Strand(Strand::Top)] {
            let parts = question.programme(&hearing, true).expect("it sounds").parts;
            assert_eq!(parts.len(), 2, "{hearing:?}");
            assert_eq!(parts[0].is_line, !other.is_first, "{hearing:?}");
        }
    }
    assert!(
        (8..=32).contains(&firsts),
        "the device is not always in one place: {firsts}"
    );
}

#[test]
fn home_is_asked_without_giving_the_key() {
    let drill = Drill {
        kind: QuestionKind::Home,
        ..drill(&["off-tonic-opening"])
    };
    let (mut session, _) = Session::new(drill, catalogue());
    let effects = begin(&mut session, "off-tonic-opening", 3);
    let [Effect::Play(programme)] = effects.as_slice() else {
        panic!("it plays: {effects:?}")
    };
    assert_eq!(programme.parts.len(), 1, "no cadence before the line");
    let key = Event::Hear {
        hearing: Hearing::Key,
        now: 1,
    };
    assert!(
        session.step(key.clone()).is_empty(),
        "the cadence would tell"
    );
    session.step(Event::Choose { choice: 0, now: 2 });
    assert!(
        !session.step(key).is_empty(),
        "after the mark it may be heard"
    );
}

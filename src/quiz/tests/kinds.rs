//! What every kind asks.

use super::*;

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
                !question.prompt.written(Notation::Text).is_empty() && !question.asks.is_empty()
            );
            for ask in &question.asks {
                let labels = ask.labels(Notation::Text);
                let mut distinct = labels.clone();
                distinct.sort();
                distinct.dedup();
                assert_eq!(distinct.len(), labels.len(), "{kind}: {labels:?}");
                assert_eq!(
                    rights(&question, ask, &catalogue),
                    1,
                    "{kind}: one right answer"
                );
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

#[test]
fn where_home_is_asked_the_end_of_the_form_tells_nothing() {
    let catalogue = catalogue();
    let home = |device: &str, index: u32| {
        let drill = Drill {
            kind: QuestionKind::Home,
            bars: 4..=8,
            ..drill(&[device])
        };
        Question::new(&drill, &catalogue, &id(device), question_seed(5, index)).expect("a question")
    };
    for index in 0..20 {
        let mut question = home("form-end-dominant", index);
        assert_eq!(question.asks[0].cue(question.material()), None);
        let key = question.key().to_string();
        let read = question.asks[0].read(&key, BareSix::AddedSixth);
        read.expect("home is on offer");
        let ask = &question.asks[0];
        let mark = ask.mark(question.material(), &catalogue).expect("a mark");
        let said = ask.diagnosis(&mark, question.material(), Notation::Text);
        let said = said.join(" ");
        assert!(
            said.contains("Home comes") || said.contains("Home is there"),
            "{said}"
        );
        let question = home("off-tonic-opening", index);
        let cue = question.asks[0].cue(question.material());
        assert_eq!(cue.map(DeviceId::as_str), Some("off-tonic-opening"));
    }
}

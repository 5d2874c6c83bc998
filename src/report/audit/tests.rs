//! Each fault, put into a question on purpose, is found; and nothing is in a good one.

use super::case::Subject;
use super::*;
use crate::devices::Catalogue;
use crate::devices::DeviceId;
use crate::exercise::{Exercise, Known};
use crate::harmony::{ChordInContext, Progression};
use crate::quiz::Drill;
use crate::quiz::{Ask, ChordAsk, SlotsAsk, Unfair};
use crate::theory::{BareSix, Key, Line, Meter, Mode, Numeral, PitchClass};

/// An exercise of the applied dominants in C.
const APPLIED: &str = r#"{
  "format": 1, "id": "applied", "title": "Applied", "about": "Applied dominants.",
  "devices": ["dominant-of-two", "dominant-of-five", "dominant-of-six"],
  "keys": ["C"], "bars": 6, "tempo": [80, 80], "key_given": "cadence",
  "ask": "marked chord", "answers": 4, "questions": 5,
  "sound": "sine", "texture": "held-chords"
}"#;

fn drill(catalogue: &Catalogue, text: &str) -> Drill {
    let known = Known {
        catalogue,
        sounds: &["sine"],
    };
    let Ok(exercise) = Exercise::read(text, known) else {
        panic!("the exercise is sound")
    };
    exercise.drill(BareSix::AddedSixth)
}

fn numeral(text: &str) -> Numeral {
    text.parse().expect("a numeral")
}

fn numerals(texts: &[&str]) -> Vec<Numeral> {
    texts.iter().map(|text| numeral(text)).collect()
}

/// Makes a question ask for one chord, with these names on offer.
fn ask(question: &mut Question, slot: usize, truth: ChordInContext, choices: &[&str]) {
    question.asks = vec![Ask::Chord(ChordAsk::new(
        slot,
        truth,
        numerals(choices),
        Vec::new(),
    ))];
}

/// A question on the applied dominant in `text`, a line in C.
fn question(catalogue: &Catalogue, drill: &Drill, text: &str, slot: usize) -> Question {
    let wanted: DeviceId = "dominant-of-two".parse().expect("an id");
    let mut question = Question::new(drill, catalogue, &wanted, 1).expect("it can be made");
    let key = Key::new(PitchClass::C, Mode::Major).expect("C is a key");
    let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
    question.progression = Progression {
        focus: Some(slot),
        ..Progression::new(key, line, catalogue)
    };
    let sounding = ChordInContext::of(&question.progression.line, slot, Mode::Major);
    ask(&mut question, slot, sounding, &["I", "V7/ii", "V7/V", "IV"]);
    question
}

const LINE: &str = "I | V7/ii | ii7 | V7 | I | %";

/// What is unfair about a question, apart from what the line is.
fn unfair(change: impl FnOnce(&mut Question)) -> Vec<Unfair> {
    let catalogue = Catalogue::built_in();
    let drill = drill(&catalogue, APPLIED);
    let mut question = question(&catalogue, &drill, LINE, 1);
    change(&mut question);
    let subject = Subject {
        catalogue: &catalogue,
        drill: &drill,
        place: 0,
        index: 0,
        question: &question,
    };
    let read = truth::TruthExaminer::default().examine(&subject);
    let mut examiner = fairness::FairnessExaminer::default();
    examiner.examine(&subject, &read);
    examiner.finish().sorts.into_keys().collect()
}

fn offering(choices: &[&str]) -> Vec<Unfair> {
    unfair(|question| {
        let truth = ChordInContext::of(&question.progression.line, 1, Mode::Major);
        ask(question, 1, truth, choices);
    })
}

#[test]
fn a_fair_question_has_no_fault() {
    assert_eq!(unfair(|_| {}), []);
}

#[test]
fn unfair_offers_are_found() {
    assert_eq!(offering(&["I", "V7/V", "IV"]), [Unfair::NoRightAnswer]);
    // V7/ii and VI7 are one chord: both are right.
    assert_eq!(offering(&["V7/ii", "VI7", "IV"]), [Unfair::SeveralRight]);
    // V7/V and II7 are one chord too, and both are wrong.
    assert_eq!(offering(&["V7/ii", "V7/V", "II7"]), [Unfair::Twins]);
    assert_eq!(offering(&["V7/ii", "ii", "ii7"]), [Unfair::Twins]);
    assert_eq!(
        unfair(|question| question.asks.clear()),
        [Unfair::AsksNothing]
    );
}

#[test]
fn another_name_of_the_same_standing_may_not_be_offered_as_wrong() {
    // V of ii written as a chord of its own key on a root spelled otherwise.
    let sorts = offering(&["V7/ii", "bbVII7", "IV"]);
    assert_eq!(sorts, [Unfair::SeveralRight]);
    // The truth is of another chord than the one that sounds: nothing on offer fits, and
    // the names that are accepted say another thing there.
    let sorts = unfair(|question| {
        let line = "I | iv | ii7 | V7 | I | %";
        let line = Line::read(line, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        let elsewhere = ChordInContext::of(&line, 1, Mode::Major);
        ask(question, 1, elsewhere, &["I", "V7/ii", "V7/V", "IV"]);
    });
    assert_eq!(sorts, [Unfair::NoRightAnswer, Unfair::Untrue]);
}

#[test]
fn chords_out_of_the_key_are_counted_by_their_sound() {
    let sorts = |slots: &[usize]| {
        unfair(|question| {
            let count = question.progression.line.slots().len();
            question.asks = vec![Ask::Slots(SlotsAsk::new(slots.to_vec(), count, Vec::new()))];
        })
    };
    // Only V7/ii has a note outside C major.
    assert_eq!(sorts(&[1]), []);
    assert_eq!(sorts(&[1, 2]), [Unfair::Untrue]);
    assert_eq!(sorts(&[]), [Unfair::Untrue]);
}

#[test]
fn a_truth_that_the_symbols_do_not_hold_is_found() {
    let catalogue = Catalogue::built_in();
    let drill = drill(&catalogue, APPLIED);
    let examined = |text: &str| {
        let question = question(&catalogue, &drill, text, 1);
        let mut examiner = truth::TruthExaminer::default();
        examiner.examine(&Subject {
            catalogue: &catalogue,
            drill: &drill,
            place: 0,
            index: 0,
            question: &question,
        });
        examiner.finish()
    };
    let told = examined(LINE);
    assert_eq!((told.agreement, told.count), (1.0, 0));
    assert_eq!(told.fault(), None);
    // The line holds another device than the question says.
    let told = examined("I | V7/V | V7 | I | %");
    assert_eq!(told.count, 1);
    assert!(told.disagreements.kept()[0].what.contains("is not found"));
    assert!(told.fault().is_some());
}

#[test]
fn a_line_that_holds_no_wanted_device_or_both_do_is_found() {
    let catalogue = Catalogue::built_in();
    let text = APPLIED.replace(
        "\"ask\": \"marked chord\", \"answers\": 4",
        "\"kind\": \"which-of-two\"",
    );
    let drill = drill(&catalogue, &text);
    let wanted: DeviceId = "dominant-of-two".parse().expect("an id");
    let good = Question::new(&drill, &catalogue, &wanted, 3).expect("it can be made");
    let sorts = |question: &Question| {
        let subject = Subject {
            catalogue: &catalogue,
            drill: &drill,
            place: 0,
            index: 0,
            question,
        };
        let read = truth::TruthExaminer::default().examine(&subject);
        let mut examiner = fairness::FairnessExaminer::default();
        examiner.examine(&subject, &read);
        examiner.finish().sorts.into_keys().collect::<Vec<_>>()
    };
    assert_eq!(sorts(&good), []);
    let mut same = good.clone();
    let twin = same.progression.clone();
    if let Some(other) = &mut same.other {
        other.progression = twin;
    }
    assert_eq!(sorts(&same), [Unfair::Twins, Unfair::AsWellSupported]);
    let mut swapped = good;
    if let Some(other) = &mut swapped.other {
        std::mem::swap(&mut other.progression, &mut swapped.progression);
    }
    assert_eq!(sorts(&swapped), [Unfair::AsWellSupported, Unfair::Untrue]);
}

#[test]
fn what_is_missing_and_what_is_monotonous_is_found() {
    let catalogue = Catalogue::built_in();
    let drills = [drill(&catalogue, APPLIED)];
    let plan = |questions| Plan {
        catalogue: &catalogue,
        drills: &drills,
        questions,
        seed: 1,
    };
    // Two questions cannot ask three devices; thirty ask all.
    let few = audit(&plan(2));
    assert_eq!(few.coverage.missing.len(), 1);
    assert!(
        few.faults()
            .iter()
            .any(|fault| fault.starts_with("never asked"))
    );
    let some = audit(&plan(30));
    assert_eq!((some.coverage.asked, some.coverage.missing.len()), (3, 0));
    assert_eq!(some.questions, 30);
    assert!((1..=some.variety.draws).contains(&some.variety.least_distinct));
    let mut dull = some.variety.clone();
    (dull.draws, dull.devices[0].distinct) = (1000, 199);
    dull.devices.truncate(1);
    assert!(dull.fault().is_some());
    dull.devices[0].distinct = 200;
    assert_eq!(dull.fault(), None);
}

#[test]
fn an_impossible_question_is_counted_with_its_reason() {
    let catalogue = Catalogue::built_in();
    let mut impossible = drill(&catalogue, APPLIED);
    impossible.never = impossible.devices.clone();
    let found = audit(&Plan {
        catalogue: &catalogue,
        drills: &[impossible],
        questions: 3,
        seed: 1,
    });
    assert_eq!((found.questions, found.refused.count()), (0, 3));
    assert!(found.faults()[0].contains("could not be made"));
}

#[test]
fn the_same_seed_gives_the_same_audit_and_its_page_tells_it() {
    let catalogue = Catalogue::built_in();
    let drills = [drill(&catalogue, APPLIED)];
    let told = |seed| {
        let found = audit(&Plan {
            catalogue: &catalogue,
            drills: &drills,
            questions: 40,
            seed,
        });
        found.page().join("\n")
    };
    assert_eq!(told(1), told(1));
    assert_ne!(told(1), told(2));
    assert!(told(1).starts_with("40 questions, seed 1\ntruth          100.00 %"));
}

//! What can be heard of a question: stretches over and over, one shape taking up another.

use std::sync::Arc;

use plagal::arranging::Texture;
use plagal::devices::Catalogue;
use plagal::harmony::{Phrasing, Progression};
use plagal::quiz::{
    Answered, Ask, Asked, Drill, Effect, Event, Followed, Hearing, KeyGiven, QuestionKind, Session,
    State,
};
use plagal::theory::{BareSix, Key, Meter};

fn drill() -> Drill {
    Drill {
        exercise: "trial".to_owned(),
        kind: QuestionKind::NameChords,
        asked: Asked::MarkedChord,
        followed: Followed::Bass,
        devices: vec!["minor-four".parse().expect("a device")],
        never: Vec::new(),
        keys: vec![Key::C_MAJOR],
        bars: 4..=8,
        meter: Meter::FourFour,
        tempo: 90..=90,
        key_given: KeyGiven::Cadence,
        answers: 0,
        questions: 3,
        sounds: vec!["piano".to_owned()],
        textures: vec![Texture::HeldChords],
        styles: Vec::new(),
        phrasing: Phrasing::Plain,
        six: BareSix::AddedSixth,
    }
}

#[test]
fn a_stretch_is_repeated_and_an_answer_may_take_up_the_line() {
    let catalogue = Arc::new(Catalogue::built_in());
    let (mut session, _) = Session::new(drill(), catalogue);
    session.step(Event::Begin {
        wanted: "minor-four".parse().expect("a device"),
        reason: "first time".to_owned(),
        aim: plagal::quiz::Aim::default(),
        seed: 11,
        now: 1,
    });
    let hear = |session: &mut Session, hearing| {
        let effects = session.step(Event::Hear { hearing, now: 2 });
        match effects.as_slice() {
            [Effect::Play(programme)] => Some(programme.clone()),
            _ => None,
        }
    };
    let looped = hear(&mut session, Hearing::Loop { from: 1, to: 2 }).expect("it sounds");
    let part = &looped.parts[0];
    let spans = &part.passage.chords;
    assert_eq!(part.repeats, Some(spans[1].start..spans[2].end));
    let line = &session.question().expect("it is open").progression.line;
    let line = line.with(0, "V7".parse().expect("a numeral"));
    let instead = Hearing::Instead(Box::new(Hearing::With(Box::new(line))));
    assert_eq!(
        hear(&mut session, instead.clone()),
        None,
        "not before the mark"
    );
    session.step(Event::Type {
        text: "ii".to_owned(),
        now: 3,
    });
    let taken = hear(&mut session, instead).expect("it sounds");
    assert!(taken.takes_up && !looped.takes_up);
}

/// A question of the drill with the given answer, marked.
fn marked(drill: &Drill, wanted: &str, seed: u64, choice: usize) -> Answered {
    let (mut session, _) = Session::new(drill.clone(), Arc::new(Catalogue::built_in()));
    session.step(Event::Begin {
        wanted: wanted.parse().expect("a device"),
        reason: "first time".to_owned(),
        aim: plagal::quiz::Aim::default(),
        seed,
        now: 1,
    });
    session.step(Event::Choose { choice, now: 2 });
    match session.state() {
        State::Marked(answered) => (**answered).clone(),
        other => panic!("{wanted} with seed {seed} is not marked: {other:?}"),
    }
}

#[test]
fn a_device_that_was_not_there_can_be_heard_in_the_same_place() {
    let ids = [
        "two-five-one",
        "backdoor-two-five",
        "two-tritone-substitute",
        "flat-six-flat-seven",
        "double-plagal",
    ];
    let drill = Drill {
        kind: QuestionKind::WhichDevice,
        devices: ids.map(|id| id.parse().expect("a device")).to_vec(),
        ..drill()
    };
    let catalogue = Catalogue::built_in();
    let (mut wrong, mut heard) = (0, 0);
    for (seed, wanted) in (0..8).flat_map(|seed| ids.map(|id| (seed, id))) {
        for choice in 0..5 {
            let answered = marked(&drill, wanted, seed, choice);
            let (ask, mark) = (&answered.question.asks[0], &answered.marks[0]);
            let mine = answered.playback[0].as_ref();
            assert!(mine.is_none() || !mark.tier.is_right());
            wrong += u32::from(!mark.tier.is_right());
            let Some(Hearing::With(line)) = mine else {
                continue;
            };
            heard += 1;
            let truth = &answered.question.progression;
            let mine = Progression::new(truth.key, (**line).clone(), &catalogue);
            let Ask::Device(device) = ask else {
                panic!("a device is asked")
            };
            assert!(mine.occurrence(&device.ids()[choice]).is_some(), "{wanted}");
            assert!(mine.occurrence(&ask.devices()[0]).is_none(), "{wanted}");
            assert_eq!(line.slots().len(), truth.line.slots().len());
        }
    }
    assert!(heard * 10 >= wrong * 9, "{heard} of {wrong}");
}

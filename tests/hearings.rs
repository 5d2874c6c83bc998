//! What can be heard of a question: stretches over and over, one shape taking up another.

use std::sync::Arc;

use plagal::arranging::Texture;
use plagal::devices::Catalogue;
use plagal::quiz::{Asked, Drill, Effect, Event, Hearing, KeyGiven, QuestionKind, Session};
use plagal::theory::{BareSix, Key, Meter};

fn drill() -> Drill {
    Drill {
        exercise: "trial".to_owned(),
        kind: QuestionKind::NameChords,
        asked: Asked::MarkedChord,
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
    let instead = Hearing::Instead(Box::new(Hearing::With {
        slot: 0,
        numeral: "V7".parse().expect("a numeral"),
    }));
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

//! How hard the next exemplar should be, and what a question makes of it.

use std::sync::{Arc, LazyLock};

use plagal::arranging::Texture;
use plagal::devices::{Catalogue, DeviceId};
use plagal::harmony::Phrasing;
use plagal::journal::{Difficulty, FORMAT, KeySetting, ScoredEntry, ScoredSlot};
use plagal::quiz::{
    Aim, Asked, Drill, Effect, Event, Followed, Hardness, Held, KeyGiven, Question, QuestionKind,
    Session, State,
};
use plagal::scorer::{Exemplar, Scorer, Wishes};
use plagal::theory::{BareSix, Meter};

static CATALOGUE: LazyLock<Arc<Catalogue>> = LazyLock::new(|| Arc::new(Catalogue::built_in()));

fn id(text: &str) -> DeviceId {
    text.parse().expect("a device id")
}

fn drill() -> Drill {
    Drill {
        exercise: "borrowed-colours".to_owned(),
        kind: QuestionKind::NameChords,
        asked: Asked::MarkedChord,
        followed: Followed::Bass,
        devices: ["minor-four", "backdoor-dominant", "flat-six"]
            .map(id)
            .to_vec(),
        never: Vec::new(),
        keys: ["C", "Eb", "A"]
            .map(|key| key.parse().expect("a key"))
            .to_vec(),
        bars: 4..=8,
        meter: Meter::FourFour,
        tempo: 60..=140,
        key_given: KeyGiven::Cadence,
        answers: 5,
        questions: 10,
        sounds: vec!["upright".to_owned(), "vibraphone".to_owned()],
        textures: vec![Texture::HeldChords, Texture::Ballad, Texture::Band],
        styles: Vec::new(),
        phrasing: Phrasing::Plain,
        six: BareSix::AddedSixth,
    }
}

fn hardness(level: f64) -> Hardness {
    Hardness {
        inversion: level,
        texture: level,
        tempo: level,
    }
}

fn aimed(aim: &Aim, seed: u64) -> Question {
    let drill = drill();
    let wanted = &drill.devices[seed as usize % drill.devices.len()];
    Question::aimed(&drill, &CATALOGUE, wanted, aim, seed).expect("it can be made")
}

#[test]
fn easy_and_hard_questions_are_of_the_drill_and_differ() {
    let drill = drill();
    let mean = |level: f64| {
        let aim = Aim {
            hardness: Some(hardness(level)),
            ..Aim::default()
        };
        let (mut tempo, mut texture) = (0.0, 0.0);
        for seed in 0..100 {
            let question = aimed(&aim, seed);
            assert_eq!(question, aimed(&aim, seed));
            assert!(drill.tempo.contains(&question.tempo));
            assert!(drill.textures.contains(&question.texture));
            assert!(drill.keys.contains(&question.key()));
            assert!(drill.sounds.contains(&question.sound));
            let found = Hardness::of(&question);
            tempo += found.tempo / 100.0;
            texture += found.texture / 100.0;
        }
        (tempo, texture)
    };
    let (easy, hard) = (mean(0.0), mean(1.0));
    assert!(easy.0 + 0.2 < hard.0, "{easy:?} {hard:?}");
    assert!(easy.1 + 0.2 < hard.1, "{easy:?} {hard:?}");
}

#[test]
fn key_and_sound_stay_where_the_drill_has_them() {
    for seed in 0..30 {
        let held = |key: &str, sound: &str| Aim {
            held: Some(Held {
                key: key.parse().expect("a key"),
                sound: sound.to_owned(),
            }),
            ..Aim::default()
        };
        let question = aimed(&held("Eb", "vibraphone"), seed);
        assert_eq!(question.key().to_string(), "Eb major");
        assert_eq!(question.sound, "vibraphone");
        let question = aimed(&held("B", "gong"), seed);
        assert_eq!(question, aimed(&Aim::default(), seed));
    }
}

#[test]
fn what_does_not_come_apart_is_explained_among_its_neighbours() {
    let (mut session, _) = Session::new(drill(), Arc::clone(&CATALOGUE));
    let effects = session.step(Event::Begin {
        wanted: id("minor-four"),
        reason: "missed a moment ago".to_owned(),
        aim: Aim {
            explain: true,
            ..Aim::default()
        },
        seed: 5,
        now: 0,
    });
    assert!(matches!(effects.as_slice(), [Effect::Play(_)]));
    let State::Asking(asking) = session.state() else {
        panic!("a question is open");
    };
    assert!(asking.explained.contains(&id("minor-four")));
    assert!(asking.explained.len() > 1, "else it would be given away");
    let explained = asking.explained.len();
    session.step(Event::Choose { choice: 0, now: 9 });
    let State::Marked(answered) = session.state() else {
        panic!("one answer marks it");
    };
    assert_eq!(answered.reason, "missed a moment ago");
    assert_eq!(answered.explained as usize, explained);
}

/// How near the wrong answers of a question lie, as its mark tells.
fn nearness(drill: &Drill, seed: u64) -> Option<f64> {
    let (mut session, _) = Session::new(drill.clone(), Arc::clone(&CATALOGUE));
    session.step(Event::Begin {
        wanted: id("minor-four"),
        reason: String::new(),
        aim: Aim::default(),
        seed,
        now: 0,
    });
    if drill.answers == 0 {
        let text = "iv".to_owned();
        session.step(Event::Type { text, now: 9 });
    } else {
        session.step(Event::Choose { choice: 0, now: 9 });
    }
    let State::Marked(answered) = session.state() else {
        panic!("one answer marks it");
    };
    answered.nearness
}

#[test]
fn how_near_the_wrong_answers_lie_is_kept_with_the_answer() {
    let devices = Drill {
        kind: QuestionKind::WhichDevice,
        answers: 3,
        ..drill()
    };
    let typed = Drill {
        answers: 0,
        ..drill()
    };
    let chords: Vec<f64> = (0..40)
        .map(|seed| {
            // The device's own neighbours come first, and three are not too many.
            assert_eq!(nearness(&devices, seed), Some(1.0));
            assert_eq!(nearness(&typed, seed), None);
            nearness(&drill(), seed).expect("five are on offer")
        })
        .collect();
    assert!(chords.iter().all(|near| (0.0..=1.0).contains(near)));
    let differ = |near: &f64| (near - chords[0]).abs() > 0.1;
    assert!(chords.iter().any(differ), "{chords:?}");
}

/// The exemplar after so many answers, of which one in `wrong_in` is wrong.
fn after(answers: u64, wrong_in: u64, wishes: &Wishes) -> Exemplar {
    let device = id("minor-four");
    let mut scorer = Scorer::new([(device.clone(), "mixture")]);
    for time in 0..answers {
        scorer.fold_scored(&ScoredEntry {
            version: FORMAT,
            time,
            learner: "ada".into(),
            key_setting: KeySetting::Cadence,
            answers: 9,
            difficulty: Difficulty::default(),
            explained: 0,
            slots: vec![ScoredSlot {
                devices: vec![device.as_str().into()].into(),
                credit: f64::from(u8::from(time % wrong_in > 0)),
                heard_as: None,
                ..ScoredSlot::default()
            }]
            .into(),
        });
    }
    let choice = scorer.next(&[device], wishes, answers, 0);
    choice.expect("the only one").exemplar
}

#[test]
fn exemplars_begin_easy_and_follow_the_learner() {
    let wishes = Wishes::default();
    let new = after(0, 1, &wishes);
    assert_eq!(new.difficulty, wishes.reach.easiest);
    assert!(new.hold_key_and_sound && !after(40, 9, &wishes).hold_key_and_sound);
    let (weak, middling, good) = (
        after(40, 2, &wishes),
        after(40, 4, &wishes),
        after(40, 40, &wishes),
    );
    assert_eq!(weak.difficulty, wishes.reach.easiest);
    assert!(middling.difficulty.tempo < good.difficulty.tempo);
    let within = 0.70..=0.85;
    assert!(within.contains(&middling.predicted), "{middling:?}");
}

#[test]
fn exemplars_keep_to_what_the_exercise_can_make() {
    let mut wishes = Wishes::default();
    wishes.reach.easiest.texture = 0.3;
    wishes.reach.hardest.texture = 0.4;
    for wrong_in in [2, 4, 40] {
        let exemplar = after(40, wrong_in, &wishes);
        assert!((0.3..=0.4).contains(&exemplar.difficulty.texture));
    }
}

#[test]
fn a_dozen_answers_without_movement_call_for_an_explanation() {
    let wishes = Wishes::default();
    assert!(after(12, 2, &wishes).explain);
    assert!(!after(11, 2, &wishes).explain);
    assert!(!after(12, 12, &wishes).explain);
}

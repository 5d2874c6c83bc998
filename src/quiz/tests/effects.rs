//! What a behaviour changes for the learner, each asked for by itself.

use std::ops::RangeInclusive;

use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;

use super::*;
use crate::harmony::Progression;
use crate::theory::Numeral;

/// Symbols in which the devices named are held, and nothing else.
struct Held(Vec<DeviceId>);

impl Blind for Held {
    fn numeral(&self, _slot: usize) -> &Numeral {
        panic!("no chord is asked")
    }

    fn holds_at(&self, device: &DeviceId, _slots: &[usize]) -> bool {
        self.0.contains(device)
    }

    fn finds(&self, device: &DeviceId, _progression: &Progression) -> bool {
        self.0.contains(device)
    }
}

fn question(kind: QuestionKind, wanted: &str) -> Question {
    let drill = Drill {
        kind,
        ..drill(&MIXED)
    };
    (0..40)
        .find_map(|seed| Question::new(&drill, &catalogue(), &id(wanted), seed).ok())
        .expect("one of many can be made")
}

#[test]
fn of_devices_on_offer_the_symbols_hold_the_right_one_alone() {
    let question = question(QuestionKind::WhichDevice, "minor-four");
    let ask = &question.asks[0];
    let Ask::Device(form) = ask else {
        panic!("a device is asked")
    };
    let unfair = |held: &[DeviceId]| {
        let found = ask.unfair(question.material(), &Held(held.to_vec()));
        found.into_iter().map(|(what, _)| what).collect::<Vec<_>>()
    };
    assert_eq!(unfair(&[id("minor-four")]), []);
    assert_eq!(unfair(&[]), [Unfair::Untrue]);
    let others = form.ids().len() - 1;
    assert_eq!(unfair(form.ids()), vec![Unfair::AsWellSupported; others]);
}

#[test]
fn of_two_lines_the_right_one_is_told() {
    let question = question(QuestionKind::WhichOfTwo, "minor-four");
    let mut ask = question.asks[0].clone();
    for choice in 0..2 {
        assert!(ask.choose(choice));
        let mark = ask.mark(question.material(), &catalogue()).expect("chosen");
        let said = ask.diagnosis(&mark, question.material(), Notation::Text);
        let truth = ask.truth(Notation::Text);
        assert!(["the first line", "the second line"].contains(&truth.as_str()));
        assert_eq!(said, [format!("It was {truth}.")]);
    }
}

#[test]
fn a_question_points_at_what_its_asks_are_about() {
    for kind in QuestionKind::ALL {
        for wanted in MIXED {
            let drill = Drill {
                kind,
                ..drill(&MIXED)
            };
            let Ok(question) = Question::new(&drill, &catalogue(), &id(wanted), 5) else {
                continue;
            };
            let slots = 0..question.progression.line.slots().len();
            let by_asks: Vec<usize> = slots
                .clone()
                .filter(|slot| question.asks.iter().any(|ask| ask.points_at(*slot)))
                .collect();
            let pointed: Vec<usize> = slots.filter(|slot| question.points_at(*slot)).collect();
            assert!(by_asks.iter().all(|slot| pointed.contains(slot)), "{kind}");
            match question.asks[0] {
                Ask::Slots(_) => assert!(!by_asks.is_empty(), "{kind}: {wanted}"),
                Ask::Device(_) => {
                    let own = question.progression.occurrence(&question.wanted);
                    let mut own = own.expect("it is there").own.clone();
                    assert!(own.all(|slot| pointed.contains(&slot)), "{wanted}");
                }
                _ => {}
            }
        }
    }
}

#[test]
fn a_tempo_aimed_at_leaves_a_quarter_of_the_drills_on_either_side() {
    let drill = Drill {
        tempo: 60..=140,
        ..drill(&MIXED)
    };
    let taken = |tempo: Option<f64>| -> RangeInclusive<u16> {
        let aim = Aim {
            hardness: tempo.map(|tempo| Hardness {
                inversion: 0.5,
                texture: 0.5,
                tempo,
            }),
            ..Aim::default()
        };
        let mut random = ChaCha8Rng::seed_from_u64(4);
        let all: Vec<u16> = (0..3000).map(|_| aim.tempo(&drill, &mut random)).collect();
        *all.iter().min().expect("many")..=*all.iter().max().expect("many")
    };
    assert_eq!(taken(None), 60..=140);
    // Time is ample at 60 and scant at 200: 0.2 of the way is 88.
    assert_eq!(taken(Some(0.0)), 60..=80);
    assert_eq!(taken(Some(0.2)), 68..=108);
    assert_eq!(taken(Some(1.0)), 120..=140);
}

#[test]
fn a_device_is_explained_among_two_that_it_is_taken_for() {
    let catalogue = catalogue();
    let wanted = id("minor-four");
    let neighbours = &catalogue.get(&wanted).expect("it is there").neighbours;
    assert!(neighbours.len() > 2, "more than are explained");
    let (mut session, _) = Session::new(drill(&MIXED), Arc::clone(&catalogue));
    session.step(Event::Begin {
        wanted: wanted.clone(),
        reason: "first time".to_owned(),
        aim: Aim {
            explain: true,
            ..Aim::default()
        },
        seed: 3,
        now: 1000,
    });
    let explained = &asking(&session).explained;
    assert_eq!(explained.len(), 3);
    assert!(explained.contains(&wanted));
    let others = explained.iter().filter(|id| **id != wanted);
    assert!(others.into_iter().all(|id| neighbours.contains(id)));
    let is_met = |id: &&DeviceId| MIXED.contains(&id.as_str());
    let met = neighbours.iter().filter(is_met).count();
    assert_eq!(explained.iter().filter(is_met).count(), 1 + met.min(2));
}

#[test]
fn an_opening_taken_for_home_is_said_to_be() {
    let drill = Drill {
        kind: QuestionKind::Home,
        ..drill(&["off-tonic-opening"])
    };
    let mut taken = 0;
    for seed in 0..20 {
        let wanted = &drill.devices[0];
        let question = Question::new(&drill, &catalogue(), wanted, seed).expect("it can be made");
        let opening = question.progression.line.slots()[0].numeral.root();
        let opening = question.progression.key.note(opening).chromatic();
        let mut ask = question.asks[0].clone();
        for (choice, label) in ask.labels(Notation::Text).iter().enumerate() {
            assert!(ask.choose(choice));
            let mark = ask.mark(question.material(), &catalogue()).expect("chosen");
            let said = ask.diagnosis(&mark, question.material(), Notation::Text);
            let named: Key = label.parse().expect("keys are on offer");
            let is_opening = !mark.tier.is_right() && named.tonic().chromatic() == opening;
            let says_so = said
                .iter()
                .any(|line| line.ends_with("which you took for home."));
            assert_eq!(says_so, is_opening, "{label}: {said:?}");
            taken += u32::from(is_opening);
        }
    }
    assert!(taken > 0, "the opening is on offer");
}

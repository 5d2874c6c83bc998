//! Whether the chord that is asked tells its device from the others of the exercise.

use std::collections::BTreeMap;

use plagal::devices::Catalogue;
use plagal::exercise::Exercise;
use plagal::quiz::{Asked, Question, QuestionKind};
use plagal::theory::{BareSix, Notation};

use crate::built_in::exercises;

/// Questions on each device.
const QUESTIONS: u64 = 24;

/// How often each right answer was asked for each device, where one chord is asked.
type Asks = BTreeMap<(String, String), u32>;

/// Where two devices have no chord of their own, or one under the same name: the sixth of
/// `enharmonic-german-sixth` is told by where it goes, iv and bVII7 of `backdoor-two-five`
/// each stand in another device, and so do iii and vi of `tonic-substitute`.
const SHARED: [(&str, &str); 3] = [
    ("open-ends", "iii"),
    ("side-doors", "bVII7"),
    ("sixths-that-spread", "Ger6"),
];

/// The answers that were asked, and how often the tonic at rest was, of how many.
fn asks(exercise: &Exercise, catalogue: &Catalogue) -> (Asks, u32, u32) {
    let drill = exercise.drill(BareSix::AddedSixth);
    let (mut asks, mut tonics, mut all) = (Asks::new(), 0, 0);
    for device in &drill.devices {
        for seed in 0..QUESTIONS {
            let Ok(question) = Question::new(&drill, catalogue, device, seed) else {
                continue;
            };
            let ask = &question.asks[0];
            assert!(ask.devices().contains(device), "{}: {device}", exercise.id);
            let plain = ask.chord().expect("a chord is asked").truth.to_string();
            all += 1;
            tonics += u32::from(["I", "i"].contains(&plain.as_str()));
            let asked = (ask.truth(Notation::Text), device.to_string());
            *asks.entry(asked).or_default() += 1;
        }
    }
    (asks, tonics, all)
}

#[test]
fn one_answer_is_right_for_one_device_of_an_exercise() {
    let catalogue = Catalogue::built_in();
    let (mut tonics, mut all) = (0, 0);
    for exercise in exercises(&catalogue) {
        let drill = &exercise.drill;
        if drill.kind != QuestionKind::NameChords || drill.asked != Asked::MarkedChord {
            continue;
        }
        let (asks, rests, count) = asks(&exercise, &catalogue);
        tonics += rests;
        all += count;
        let mut devices = BTreeMap::<&str, Vec<&str>>::new();
        for ((truth, device), times) in &asks {
            if u64::from(*times) * 2 > QUESTIONS {
                devices.entry(truth).or_default().push(device);
            }
        }
        for (truth, devices) in devices {
            let shared = SHARED.contains(&(&exercise.id, truth));
            assert!(
                devices.len() < 2 || shared,
                "{}: {truth} is right for {devices:?}",
                exercise.id
            );
        }
    }
    println!("the tonic at rest in {tonics} of {all}");
    assert!(tonics * 25 < all, "{tonics} of {all}");
}

#[test]
fn a_deceptive_cadence_is_asked_by_its_goal() {
    let catalogue = Catalogue::built_in();
    let all = exercises(&catalogue);
    let first = all.iter().find(|exercise| exercise.id == "first-cadences");
    let (asks, _, _) = asks(first.expect("built in"), &catalogue);
    let deceptive = |truth: &str| {
        let asked = (truth.to_owned(), "deceptive-cadence".to_owned());
        asks.get(&asked).copied().unwrap_or(0)
    };
    assert_eq!((deceptive("V7"), deceptive("vi")), (0, QUESTIONS as u32));
}

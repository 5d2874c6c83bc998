//! Exercise files, good and bad.

use insta::assert_snapshot;

use super::{Exercise, Known};
use crate::arranging::Texture;
use crate::devices::{Catalogue, DeviceId};
use crate::document::Faults;
use crate::harmony::{Phrasing, Style};
use crate::quiz::{Asked, KeyGiven, QuestionKind};
use crate::theory::{Meter, Mode};

fn read(text: &str) -> Result<Exercise, Faults> {
    let known = Known {
        catalogue: &Catalogue::built_in(),
        sounds: &["piano", "organ"],
    };
    Exercise::read(text, known)
}

/// Each fault on a line: place, message.
fn faults(text: &str) -> String {
    let faults = read(text).expect_err("it has faults");
    faults
        .iter()
        .map(|fault| format!("{} {fault}\n", fault.place))
        .collect()
}

const SHORTEST: &str = r#"{"format": 1, "id": "dusk", "title": "Dusk", "about": "For the evening",
    "devices": ["minor-four"]}"#;

#[test]
fn the_defaults_are_moderate() {
    let exercise = read(SHORTEST).expect("it is good");
    let ids: Vec<&str> = exercise
        .drill
        .devices
        .iter()
        .map(DeviceId::as_str)
        .collect();
    assert_eq!(ids, ["minor-four"]);
    assert!(exercise.always.is_empty() && exercise.drill.never.is_empty());
    assert_eq!(exercise.floor, None);
    assert_eq!(exercise.drill.keys.len(), 12);
    assert_eq!(exercise.drill.phrasing, Phrasing::Plain);
    assert!(
        exercise
            .drill
            .keys
            .iter()
            .all(|key| key.mode() == Mode::Major)
    );
    assert_eq!(
        (exercise.drill.bars, exercise.drill.tempo),
        (4..=8, 80..=112)
    );
    assert_eq!(exercise.drill.meter, Meter::FourFour);
    assert_eq!(exercise.drill.key_given, KeyGiven::Cadence);
    assert_eq!(exercise.drill.kind, QuestionKind::NameChords);
    assert_eq!(exercise.drill.asked, Asked::ChordsOutOfKey);
    assert_eq!((exercise.drill.answers, exercise.drill.questions), (0, 20));
    assert_eq!(exercise.drill.sounds, ["piano"]);
    assert_eq!(exercise.drill.textures, [Texture::HeldChords]);
}

#[test]
fn every_field_is_read() {
    let exercise = read(
        r#"{"format": 1, "id": "dawn", "title": "Dawn", "about": "For the morning",
        "devices": ["minor-four"], "always": ["minor-four"], "never": [], "floor": 40,
        "keys": ["Gm", "any major"], "bars": [2, 6], "meter": "3/4", "tempo": 60,
        "key_given": "nothing", "kind": "name-chords", "ask": "marked chord", "answers": 5,
        "questions": 7, "sound": ["organ", "piano"], "texture": "four-to-the-bar",
        "style": ["triads", "sixth at home"], "phrasing": "tune"}"#,
    );
    let exercise = exercise.expect("it is good");
    assert_eq!(exercise.always, exercise.drill.devices);
    assert_eq!(exercise.floor, Some(40));
    assert_eq!(exercise.drill.keys[0].to_string(), "G minor");
    assert_eq!(exercise.drill.keys.len(), 13);
    assert_eq!(
        (exercise.drill.bars, exercise.drill.tempo),
        (2..=6, 60..=60)
    );
    assert_eq!(exercise.drill.meter, Meter::ThreeFour);
    assert_eq!(exercise.drill.key_given, KeyGiven::Nothing);
    assert_eq!(exercise.drill.kind, QuestionKind::NameChords);
    assert_eq!(exercise.drill.asked, Asked::MarkedChord);
    assert_eq!((exercise.drill.answers, exercise.drill.questions), (5, 7));
    assert_eq!(exercise.drill.sounds, ["organ", "piano"]);
    assert_eq!(exercise.drill.textures, [Texture::FourToTheBar]);
    assert_eq!(exercise.drill.styles, [Style::Triads, Style::SixthAtHome]);
    assert_eq!(exercise.drill.phrasing, Phrasing::Tune);
}

#[test]
fn all_faults_of_a_bad_file_are_named() {
    assert_snapshot!(faults(r#"{
  "format": 2,
  "id": "Dawn!",
  "titel": "Dawn",
  "devices": ["minor-for", "minor-four", "minor-four"],
  "floor": 0.5,
  "keys": ["any major", "G", "H", "Gm", "Gm"],
  "bars": [8, 4],
  "meter": "6/8",
  "tempo": 400,
  "key_given": "cadense",
  "kind": "name-chord",
  "ask": "all",
  "answers": 1,
  "questions": 0,
  "sound": ["organ", "pianno"],
  "texture": 3,
  "style": "jazzy"
}"#), @r#"
    1:1 `title` is missing; expected text of 1 to 60 characters
    1:1 `about` is missing; expected text of 1 to 400 characters
    2:13 `format` is `2`; expected the number 1
    3:9 `id` is `"Dawn!"`; expected an id such as `first-cadences`: words of a to z joined by `-`
    4:3 `titel` is not a field here; did you mean `title`?
    5:15 `devices[0]` is `minor-for`; expected the id of a device; did you mean `minor-four`?
    5:42 `devices[2]` repeats `minor-four` of 5:28
    6:12 `floor` is `0.5`; expected a whole number from 0 to 100
    7:30 `keys[2]`: `H` is not a key; expected a key such as `G`, `Bb`, `F#` or `Gm`, or `any major`, `any minor` or `any`
    7:41 `keys[4]` repeats `Gm` of 7:35
    8:11 `bars`: the pair falls from 8 to 4; expected the smaller number first
    9:12 `meter`: `6/8` is not a meter; expected `2/4`, `3/4` or `4/4`
    10:12 `tempo` is `400`; expected a whole number from 30 to 300, or a list of two, the smaller first
    11:16 `key_given` is `cadense`; expected `cadence`, `tonic` or `nothing`; did you mean `cadence`?
    12:11 `kind` is `name-chord`; expected `name-chords`, `leaves-key`, `which-device`, `home`, `which-of-two`, `finish-chart` or `degrees`; did you mean `name-chords`?
    13:10 `ask` is `all`; expected `every chord`, `chords out of key` or `marked chord`
    14:14 `answers` is `1`; expected 0 for typed answers, or 2 to 12 choices
    15:16 `questions` is `0`; expected a whole number from 1 to 500
    16:22 `sound[1]` is `pianno`; expected the id of a sound: `piano` or `organ`; did you mean `piano`?
    17:14 `texture` is `3`; expected `held-chords`, `four-to-the-bar`, `broken-chords`, `shell-voicings`, `guitar`, `four-parts`, `two-feel`, `bossa`, `ballad`, `stride`, `walking-bass`, `band`, `band-double-time` or `band-with-melody`
    18:12 `style` is `jazzy`; expected `triads`, `sixths`, `sevenths`, `sixth at home` or `minor sevenths`
    "#);
}

#[test]
fn devices_and_keys_must_fit_each_other() {
    assert_snapshot!(faults(r#"{"format": 1, "id": "dusk", "title": "Dusk", "about": "Late",
    "devices": ["minor-four", "plagal-cadence"],
    "always": ["dominant-of-two"],
    "never": ["minor-four"],
    "keys": ["any minor", "Gm"]}"#), @"
    2:17 `devices[0]`: the device is met in major keys, of which the exercise has none
    3:16 `always[0]`: it is always asked, but is not among the devices
    4:15 `never[0]`: it is never to be heard, but is among the devices
    5:27 `keys[1]`: the keys before it hold it already
    ");
}

#[test]
fn an_empty_exercise_names_what_it_lacks() {
    assert_snapshot!(faults("{}"), @"
    1:1 `format` is missing; expected the number 1
    1:1 `id` is missing; expected an id such as `first-cadences`: words of a to z joined by `-`
    1:1 `title` is missing; expected text of 1 to 60 characters
    1:1 `about` is missing; expected text of 1 to 400 characters
    1:1 `devices` is missing; expected a list of 1 to 128 entries
    ");
}

#[test]
fn a_device_that_gives_no_question_is_told_by_the_check() {
    let known = Known {
        catalogue: &Catalogue::built_in(),
        sounds: &["piano"],
    };
    let text = SHORTEST.replace(
        r#""devices": ["minor-four"]"#,
        r#""devices": ["minor-four", "turnaround"], "bars": 2, "meter": "3/4""#,
    );
    assert!(Exercise::read(&text, known).is_ok(), "each field is good");
    let faults = Exercise::check(&text, known).expect_err("it cannot be drilled");
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(
        told.iter().any(|fault| fault.contains(
            "no question can be made: device `turnaround` does not fit into 2 bars of 3/4"
        )),
        "{told:?}"
    );
    assert!(Exercise::check(SHORTEST, known).is_ok());
}

#[test]
fn a_texture_that_no_tempo_suits_is_told_by_the_check() {
    let known = Known {
        catalogue: &Catalogue::built_in(),
        sounds: &["piano"],
    };
    let text = SHORTEST.replace(
        r#""devices": ["minor-four"]"#,
        r#""devices": ["minor-four"], "tempo": [120, 144], "texture": ["band", "ballad"]"#,
    );
    assert!(Exercise::read(&text, known).is_ok(), "each field is good");
    let faults = Exercise::check(&text, known).expect_err("a ballad is slower");
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        ["`texture[1]`: `ballad` suits tempos from 30 to 92, of which the exercise has none"]
    );
}

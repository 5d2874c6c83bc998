//! The files of a home, and the journal.

use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use plagal::devices::{Catalogue, Device};
use plagal::document::{self, Faults};
use plagal::exercise::{Exercise, Known};
use plagal::host::library::EXERCISES;
use plagal::host::settings;
use plagal::journal::{Entry, JournalLine, ReportedEntry, ScoredEntry, parse, print};
use plagal::synth::{Kit, Sound};
use plagal::theory::BareSix;

use super::told;

pub(super) static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

pub(super) fn known() -> Known<'static> {
    static SOUNDS: LazyLock<Vec<&str>> = LazyLock::new(|| {
        let sounds = plagal::synth::built_in().iter();
        sounds.map(|sound| sound.id.as_str()).collect()
    });
    Known {
        catalogue: &CATALOGUE,
        sounds: &SOUNDS,
    }
}

/// Every fault is told with its place, and holds nothing that a terminal would obey.
fn is_read<T>(read: Result<T, Faults>) -> bool {
    let Err(faults) = read else { return true };
    assert!(!faults.is_empty());
    for fault in faults.iter() {
        told(fault);
        let message = format!("{fault} {}", fault.place);
        assert!(!message.contains(char::is_control), "{message:?}");
    }
    false
}

pub(super) fn exercise(text: &str, chance: usize) -> bool {
    let read = Exercise::read(text, known());
    if let Ok(exercise) = &read {
        let sixes = [BareSix::AddedSixth, BareSix::FirstInversion];
        assert!(!exercise.drill(sixes[chance % 2]).devices.is_empty());
    }
    is_read(read)
}

pub(super) fn settings(text: &str, _chance: usize) -> bool {
    is_read(document::read(text, settings::read))
}

pub(super) fn sound(text: &str, chance: usize) -> bool {
    if chance.is_multiple_of(2) {
        is_read(Sound::read(text))
    } else {
        is_read(Kit::read(text))
    }
}

pub(super) fn device(text: &str, _chance: usize) -> bool {
    is_read(Device::read(text))
}

/// A line as an entry and as the parts of one: they say the same, and what is printed is
/// read as it was.
pub(super) fn journal(text: &str, _chance: usize) -> bool {
    let entry = parse::<Entry>(text);
    match &entry {
        Ok(JournalLine::Known(entry)) => {
            let scored = parse::<ScoredEntry>(text);
            assert_eq!(scored, Ok(JournalLine::Known(entry.scored())), "{text:?}");
            let reported = parse::<ReportedEntry>(text);
            assert!(matches!(reported, Ok(JournalLine::Known(_))), "{text:?}");
            let printed = print(entry);
            let again = parse::<Entry>(printed.trim_end());
            assert_eq!(again, Ok(JournalLine::Known(entry.clone())), "{text:?}");
            true
        }
        Ok(JournalLine::Newer(version)) => {
            assert_eq!(
                parse::<ScoredEntry>(text),
                Ok(JournalLine::Newer(*version)),
                "{text:?}"
            );
            false
        }
        Err(fault) => {
            told(fault);
            false
        }
    }
}

fn folder(name: &str) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
    let mut paths: Vec<_> = fs::read_dir(folder)
        .expect("it is in the project")
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| {
            path.extension()
                .is_some_and(|extension| extension == "json")
        })
        .collect();
    paths.sort();
    let texts = paths
        .iter()
        .map(|path| fs::read_to_string(path).expect("it is text"));
    texts.collect()
}

pub(super) fn exercises() -> Vec<String> {
    EXERCISES
        .iter()
        .map(|(_, text)| (*text).to_owned())
        .collect()
}

pub(super) fn sounds() -> Vec<String> {
    folder("sounds")
}

pub(super) fn devices() -> Vec<String> {
    folder("src/devices/catalogue")
}

pub(super) fn settings_files() -> Vec<String> {
    let all = r#"{"format": 1, "ascii": true, "color": "always", "audio": "off", "level": -20,
        "journal": "~/j", "tuning": 442, "kit": "wires", "output": "alsa:hw", "buffer": 2048,
        "learner": "Zoë", "bare_six": "first-inversion"}"#;
    vec![all.to_owned(), "{}".to_owned()]
}

pub(super) fn journal_lines() -> Vec<String> {
    let line = r#"{"version":1,"id":"a-3","time":1760000000123,"learner":"ada","session":"a","exercise":"colours","seed":18446744073709551615,"index":3,"kind":"name-chords","key":"Eb major","line":"IVadd6 | ivadd6 | I %","tempo":96.0,"sound":"upright","texture":"held","key_setting":"cadence","answers":9,"difficulty":{"inversion":0.25,"texture":0.0,"tempo":0.4,"similarity":0.75},"thinking":4210,"replays":1,"slots":[{"slot":1,"devices":["minor-four","minor-four-added-sixth"],"truth":"ivadd6","function":"borrowed subdominant","quality":"minor","degree":"4","bass":"4","answer":"bVII7","mark":"near","credit":0.5,"heard_as":"backdoor-dominant"}]}"#;
    let newer = r#"{"version":2,"id":"b","learner":"ada","later":[1,{"x":null}]}"#;
    let spaced = line
        .replace(',', ", ")
        .replace(r#""replays""#, r#""explained":2,"replays""#);
    let escaped = line
        .replace("ada", r"\u00e9\ud83d\ude00\n")
        .replace("96.0", "9.6e1");
    [line, newer, &spaced, &escaped].map(str::to_owned).to_vec()
}

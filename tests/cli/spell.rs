//! `plagal spell` as a process.

use crate::run::{command, plagal, run};
use serde_json::json;

#[test]
fn a_line_is_spelled_in_its_key() {
    // Any theory textbook: in E flat the dominant of ii (F minor) is C7, that of V is F7.
    let run = plagal(&["spell", "I | V7/ii V7/V | I/5", "--key", "Eb", "--json"]);
    let chord = |numeral, symbol, root, bass, notes: &[&str], bar, beats| {
        json!({"numeral": numeral, "symbol": symbol, "root": root, "bass": bass,
               "notes": notes, "bar": bar, "beats": beats})
    };
    let expected = [
        chord("I", "Eb", "Eb", "Eb", &["Eb", "G", "Bb"], 1, 4),
        chord("V7/ii", "C7", "C", "C", &["C", "E", "G", "Bb"], 2, 2),
        chord("V7/V", "F7", "F", "F", &["F", "A", "C", "Eb"], 2, 2),
        chord("I/5", "Eb/Bb", "Eb", "Bb", &["Eb", "G", "Bb"], 3, 4),
    ];
    let found = run.json();
    assert_eq!(found["key"], "Eb major");
    let chords = found["chords"].as_array().expect("a list of chords");
    assert_eq!(chords.len(), expected.len());
    for (chord, expected) in chords.iter().zip(expected) {
        for (field, value) in expected.as_object().expect("it is an object") {
            assert_eq!(&chord[field], value, "{field} of {chord}");
        }
    }
}

#[test]
fn each_chord_is_told_what_it_does() {
    let run = plagal(&[
        "spell",
        "IV | iv | I | V7/ii | ii7 | V7 | I",
        "--key",
        "G",
        "--json",
    ]);
    let found = run.json();
    let function = |chord: usize| {
        found["chords"][chord]["function"]
            .as_str()
            .map(str::to_owned)
    };
    assert_eq!(function(1).as_deref(), Some("minor subdominant"));
    assert_eq!(function(3).as_deref(), Some("dominant of ii"));
    assert_eq!(found["chords"][1]["devices"], json!(["minor-four"]));
    assert!(
        found["chords"][3]["devices"]
            .to_string()
            .contains("dominant-of-two")
    );
}

#[test]
fn people_get_signs_and_ascii_gets_none() {
    let line = ["spell", "iiø7 | V7 | #ivo7", "--key", "Bb"];
    let run = plagal(&line);
    assert!(
        run.out.contains("Cø7") && run.out.contains("B♭ major"),
        "{}",
        run.out
    );
    assert!(run.out.contains("♯iv°7"), "{}", run.out);
    let run = plagal(&[line.as_slice(), &["--ascii"]].concat());
    assert!(
        run.out.is_ascii() && run.out.contains("Bb major"),
        "{}",
        run.out
    );
}

#[test]
fn what_cannot_be_read_is_shown_with_its_place() {
    let run = plagal(&["spell", "I | IIX | V", "--key", "G", "--json"]);
    assert_eq!((run.code, run.out.as_str()), (65, ""));
    let error = run.error_json();
    assert_eq!(
        error["error"]["where"],
        json!({"file": "LINE", "line": 1, "column": 7})
    );
    assert!(error["error"]["expected"].is_string(), "{error}");

    let run = plagal(&["spell", "I | \u{1b}[2J | V", "--key", "G"]);
    assert_eq!(run.code, 65);
    assert!(
        !run.err.contains('\u{1b}') && run.err.contains("\\u001b[2J"),
        "{}",
        run.err
    );

    for (arguments, name) in [
        (["I", "--key", "H", "--meter", "4/4"], "KEY"),
        (["I", "--key", "G", "--meter", "5/4"], "METER"),
        (["I/7/7", "--key", "G", "--meter", "4/4"], "LINE"),
        (["bbVII7/bbII", "--key", "Cb", "--meter", "4/4"], "LINE"),
    ] {
        let run = plagal(&[&["spell"], arguments.as_slice()].concat());
        assert_eq!(run.code, 65, "{}", run.err);
        assert!(run.err.starts_with(name), "{}", run.err);
    }
}

#[test]
fn a_bare_six_follows_the_settings_file() {
    let home = std::env::temp_dir().join(format!("plagal-six-{}", std::process::id()));
    std::fs::create_dir_all(&home).expect("the folder can be made");
    let spell = |settings: &str| {
        std::fs::write(home.join("settings.json"), settings).expect("the file can be written");
        let mut command = command(&["spell", "I6", "--key", "C", "--json"]);
        run(command.arg("--home").arg(&home))
    };
    for (settings, symbol) in [("{}", "C6"), (r#"{"bare_six": "first-inversion"}"#, "C/E")] {
        assert_eq!(spell(settings).json()["chords"][0]["symbol"], symbol);
    }
    let broken = spell("{\"bare_six\": \"none\",\n \"loud\": 1}");
    assert_eq!(broken.code, 65);
    let places: Vec<serde_json::Value> = broken
        .err
        .lines()
        .map(|line| serde_json::from_str(line).expect("each line is JSON"))
        .map(|error: serde_json::Value| error["error"]["where"]["line"].clone())
        .collect();
    assert_eq!(places, [1, 2]);
    std::fs::remove_dir_all(home).expect("the folder can be removed");
}

//! `plagal render`, `play` and `textures` as processes.

use std::fs;
use std::path::PathBuf;

use crate::run::plagal;

const LINE: &str = "ii7 | V7 | I";

struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("plagal-{name}-{}", std::process::id()));
        fs::create_dir_all(&folder).expect("the folder can be made");
        Self(folder)
    }

    fn file(&self, name: &str) -> String {
        self.0.join(name).display().to_string()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

#[test]
fn a_line_becomes_a_wav_file_of_its_length() {
    let folder = Folder::new("wav");
    let file = folder.file("line.wav");
    let arguments = [
        "--key", "G", "--tempo", "240", "--rate", "22050", "-o", &file, "--json",
    ];
    let run = plagal(&[&["render", LINE], arguments.as_slice()].concat());
    let told = run.json();
    // Three bars of four beats at 240 a minute: 3 seconds.
    assert_eq!(told["seconds"], 3.0);
    // hound, a WAV reader that is not ours, judges the file.
    let reader = hound::WavReader::open(&file).expect("it is a WAV file");
    assert_eq!(reader.spec().sample_rate, 22_050);
    let seconds = f64::from(reader.duration()) / 22_050.0;
    assert!((3.0..6.0).contains(&seconds), "{seconds}");
    assert_eq!(
        fs::read_dir(&folder.0).expect("it is there").count(),
        1,
        "no part is left"
    );
}

#[test]
fn the_same_arguments_give_the_same_file() {
    let folder = Folder::new("same");
    let render = |name: &str, seed: &str| {
        let file = folder.file(name);
        let arguments = [
            "--key", "C", "--tempo", "300", "--rate", "8000", "--seed", seed, "-o",
        ];
        let run = plagal(&[&["render", LINE], arguments.as_slice(), &[&file]].concat());
        assert_eq!((run.code, run.out.as_str()), (0, ""), "{}", run.err);
        fs::read(file).expect("it is written")
    };
    assert!(render("one.wav", "1") == render("two.wav", "1"));
    assert!(render("three.wav", "1") != render("four.wav", "2"));
}

#[test]
fn the_ending_chooses_the_format() {
    let folder = Folder::new("formats");
    for (name, beginning) in [
        ("line.mid", b"MThd".as_slice()),
        ("line.MIDI", b"MThd"),
        ("line.musicxml", b"<?xml version=\"1.0\""),
        ("line.wav", b"RIFF"),
    ] {
        let file = folder.file(name);
        let run = plagal(&["render", LINE, "--key", "G", "--tempo", "300", "-o", &file]);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{name}");
        let bytes = fs::read(&file).expect("it is written");
        assert!(bytes.starts_with(beginning), "{name}");
    }
}

#[test]
fn what_cannot_be_rendered_is_told_and_nothing_is_lost() {
    let folder = Folder::new("lost");
    let kept = folder.file("kept.wav");
    fs::write(&kept, "before").expect("the file can be written");
    let no_folder = folder.file("none/line.wav");
    let other = folder.file("line.ogg");
    for (code, arguments) in [
        (65, vec!["I | IIX", "--key", "G", "-o", &kept]),
        (
            66,
            vec!["I", "--key", "G", "--sound", "pianno", "-o", &kept],
        ),
        (
            66,
            vec!["I", "--key", "G", "--texture", "held-chord", "-o", &kept],
        ),
        (2, vec!["I", "--key", "G", "--tempo", "301", "-o", &kept]),
        (2, vec!["I", "--key", "G", "-o", &other]),
        (
            73,
            vec!["I", "--key", "G", "--rate", "8000", "-o", &no_folder],
        ),
    ] {
        let run = plagal(&[vec!["render", "--json"], arguments.clone()].concat());
        assert_eq!((run.code, run.out.as_str()), (code, ""), "{arguments:?}");
        assert!(run.error_json()["error"]["what"].is_string());
    }
    assert_eq!(fs::read(&kept).expect("it is still there"), b"before");
    assert_eq!(fs::read_dir(&folder.0).expect("it is there").count(), 1);
}

#[test]
fn playing_without_a_device_has_code_69() {
    let run = plagal(&["play", LINE, "--key", "G", "--json"]);
    assert_eq!((run.code, run.out.as_str()), (69, ""));
    let what = run.error_json()["error"]["what"].to_string();
    assert!(what.contains("no sound"), "{what}");
}

#[test]
fn textures_are_listed() {
    let found = plagal(&["textures", "--json"]).json();
    let textures = found["textures"].as_array().expect("a list");
    assert!(
        textures
            .iter()
            .any(|texture| texture["id"] == "held-chords")
    );
    let lines = plagal(&["textures", "--ascii"]).out;
    assert_eq!(lines.lines().count(), textures.len());
    assert!(lines.is_ascii(), "{lines}");
}

#[test]
fn the_reference_tuning_is_a_flag_and_a_setting() {
    let folder = Folder::new("tuning");
    let home = folder.0.display().to_string();
    let render = |name: &str, more: &[&str]| {
        let file = folder.file(name);
        let arguments = ["render", LINE, "--key", "G", "--home", &home, "-o", &file];
        let run = plagal(&[arguments.as_slice(), more].concat());
        assert_eq!(run.code, 0, "{}", run.err);
        fs::read(file).expect("it is written")
    };
    let concert = render("440.wav", &[]);
    assert!(concert == render("same.wav", &["--tuning", "440"]));
    let sharp = render("442.wav", &["--tuning", "442"]);
    assert!(concert != sharp);
    fs::write(folder.file("settings.json"), r#"{"tuning": 442}"#).expect("it can be written");
    assert!(sharp == render("setting.wav", &[]));
    assert!(
        concert == render("flag.wav", &["--tuning", "440"]),
        "the flag wins"
    );
    for wrong in ["429.9", "451", "NaN", "a"] {
        let run = plagal(&["play", LINE, "--key", "G", "--tuning", wrong]);
        assert_eq!(run.code, 2);
        assert!(run.err.contains("expected 430 to 450 hertz"), "{}", run.err);
    }
}

/// Three questions of an exercise into files.
fn batch(seed: &str) -> [&str; 7] {
    let exercise = "first-cadences";
    [
        "render",
        "--exercise",
        exercise,
        "--count",
        "3",
        "--seed",
        seed,
    ]
}

#[test]
fn the_questions_of_an_exercise_become_a_file_each() {
    let folder = Folder::new("batch");
    let into = folder.file("made/here");
    let wanted = batch("5");
    let run = plagal(
        &[
            wanted.as_slice(),
            &["--rate", "22050", "-o", &into, "--json"],
        ]
        .concat(),
    );
    assert_eq!(run.code, 0, "{}", run.err);
    let asked = plagal(&[
        "question",
        "first-cadences",
        "--count",
        "3",
        "--seed",
        "5",
        "--json",
    ]);
    let told = run.out.lines().zip(asked.out.lines()).map(|(one, other)| {
        let value = |text| serde_json::from_str::<serde_json::Value>(text).expect("JSON");
        (value(one), value(other))
    });
    for (number, (told, asked)) in told.enumerate() {
        assert_eq!(told["line"], asked["line"]);
        let file = told["file"].as_str().expect("a file");
        assert!(file.ends_with(&format!("first-cadences-5-000{}.wav", number + 1)));
        let length = fs::metadata(file).expect("it is written").len() as f64 / 4.0 / 22_050.0;
        let slots = asked["slots"].as_array().expect("slots");
        let beats: f64 = slots
            .iter()
            .map(|slot| slot["beats"].as_f64().expect("beats"))
            .sum();
        // Eight beats of cadence at 108, a pause, the line.
        let least = 8.0 * 60.0 / 108.0 + beats * 60.0 / asked["tempo"].as_f64().expect("a tempo");
        assert!(
            (least..least + 3.0).contains(&length),
            "{length} s, at least {least}"
        );
    }
    let scores = ["--format", "musicxml", "-o", &into];
    assert_eq!(plagal(&[wanted.as_slice(), &scores].concat()).code, 0);
    assert_eq!(
        fs::read_dir(&into).expect("a folder").count(),
        6,
        "no part is left"
    );
    // Nothing is lost where a file stands in the way.
    fs::create_dir(folder.file("made/here/first-cadences-6-0002.wav")).expect("it can be made");
    let blocked = batch("6");
    let run = plagal(&[blocked.as_slice(), &["-o", &into]].concat());
    assert!(
        run.code != 0 && run.err.contains("first-cadences-6-0002.wav"),
        "{}",
        run.err
    );
    assert_eq!(run.out.lines().count(), 1);
    assert!(fs::metadata(folder.file("made/here/first-cadences-6-0001.wav")).is_ok());
    assert_eq!(
        fs::read_dir(&into).expect("a folder").count(),
        8,
        "no part is left"
    );
    for (arguments, said) in [
        (vec!["render", "-o", "x.wav"], "LINE"),
        (
            vec![
                "render",
                "--exercise",
                "first-cadences",
                "--tempo",
                "90",
                "-o",
                "x",
            ],
            "--tempo",
        ),
        (
            vec!["render", "I", "--key", "C", "--count", "3", "-o", "x.wav"],
            "--exercise",
        ),
        (vec!["spell", "I"], "--key"),
    ] {
        let run = plagal(&arguments);
        assert!(
            run.code == 2 && run.err.contains(said),
            "{arguments:?}: {}",
            run.err
        );
    }
}

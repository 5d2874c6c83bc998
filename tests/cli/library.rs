//! `plagal devices`, `sounds` and `check` as processes, with built-in and users' files.

use std::fs;
use std::path::{Path, PathBuf};

use crate::run::{Run, command, plagal, run};
use serde_json::Value;

/// A home with these files, removed at the end.
struct Home(PathBuf);

impl Home {
    fn new(name: &str, files: &[(&str, &str)]) -> Self {
        let home = std::env::temp_dir().join(format!("plagal-{name}-{}", std::process::id()));
        for (file, text) in files {
            let path = home.join(file);
            fs::create_dir_all(path.parent().expect("it has a folder")).expect("it can be made");
            fs::write(path, text).expect("the file can be written");
        }
        Self(home)
    }

    fn run(&self, arguments: &[&str]) -> Run {
        run(command(arguments).arg("--home").arg(&self.0))
    }

    fn path(&self, file: &str) -> String {
        self.0.join(file).display().to_string()
    }
}

impl Drop for Home {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn built_in(path: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    fs::read_to_string(path).expect("it is in the repository")
}

fn ids(value: &Value, list: &str) -> Vec<String> {
    let things = value[list].as_array().expect("a list");
    let id = |thing: &Value| thing["id"].as_str().expect("an id").to_owned();
    things.iter().map(id).collect()
}

fn errors(run: &Run) -> Vec<Value> {
    let parse = |line: &str| serde_json::from_str(line).expect("each line is JSON");
    run.err.lines().map(parse).collect()
}

#[test]
fn the_catalogue_is_listed_with_every_field_of_the_contract() {
    let found = plagal(&["devices", "--json"]).json();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/devices/catalogue");
    let mut files: Vec<String> = fs::read_dir(folder)
        .expect("it is in the repository")
        .map(|entry| entry.expect("it can be listed").path())
        .map(|path| {
            path.file_stem()
                .expect("a name")
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    files.sort();
    assert_eq!(ids(&found, "devices"), files);
    let listed = &found["devices"][0];
    for field in [
        "id",
        "names",
        "family",
        "pattern",
        "modes",
        "tell",
        "explains",
        "neighbours",
        "source",
        "examples",
        "counterexamples",
        "asked",
    ] {
        assert!(!listed[field].is_null(), "{field}");
    }
}

#[test]
fn one_device_is_told_in_full_and_a_wrong_name_gets_a_guess() {
    let run = plagal(&["devices", "minor-four"]);
    assert_eq!(run.code, 0);
    for part in ["minor iv", "by ear", "confused with", "source", "example"] {
        assert!(run.out.contains(part), "{part}");
    }
    assert_eq!(
        ids(
            &plagal(&["devices", "minor-four", "--json"]).json(),
            "devices"
        ),
        ["minor-four"]
    );
    let run = plagal(&["devices", "minor-for", "--json"]);
    assert_eq!((run.code, run.out.as_str()), (66, ""));
    let what = run.error_json()["error"]["what"].to_string();
    assert!(what.contains("did you mean `minor-four`"), "{what}");
}

#[test]
fn ascii_lists_hold_nothing_else() {
    for arguments in [["devices", "--ascii"], ["sounds", "--ascii"]] {
        assert!(plagal(&arguments).out.is_ascii(), "{arguments:?}");
    }
    let found = plagal(&["devices", "--json"]).json();
    for id in ids(&found, "devices") {
        let run = plagal(&["devices", &id, "--ascii"]);
        assert!(run.out.is_ascii(), "{}", run.out);
    }
}

#[test]
fn a_users_file_replaces_a_built_in_one_and_a_bad_one_is_told() {
    let organ = built_in("sounds/organ.json");
    let title = serde_json::from_str::<Value>(&organ).expect("it is JSON")["title"].to_string();
    let home = Home::new(
        "sounds",
        &[
            ("sounds/mine.json", &organ.replace(&title, "\"Chapel\"")),
            (
                "sounds/bad.json",
                "{\"id\": \"bad\",\n \"title\": \"\u{1b}[2J\"}",
            ),
        ],
    );
    let run = home.run(&["sounds", "--json"]);
    assert_eq!(run.code, 65);
    let found: Value = serde_json::from_str(&run.out).expect("one line of JSON");
    let sounds = found["sounds"].as_array().expect("a list");
    let organ = sounds.iter().find(|sound| sound["id"] == "organ");
    assert_eq!(organ.expect("it is listed")["title"], "Chapel");
    assert_eq!(errors(&run).len(), 1, "{}", run.err);
    assert_eq!(errors(&run)[0]["error"]["where"]["line"], 2);
    let run = home.run(&["sounds"]);
    assert!(
        !run.err.contains('\u{1b}') && run.err.contains("bad.json:2"),
        "{}",
        run.err
    );
}

#[test]
fn a_device_that_names_no_device_is_told_with_its_file() {
    let device = built_in("src/devices/catalogue/minor-four.json");
    let mut device: Value = serde_json::from_str(&device).expect("it is JSON");
    device["neighbours"] = serde_json::json!(["minor-fiver"]);
    let home = Home::new("neighbours", &[("devices/mine.json", &device.to_string())]);
    let run = home.run(&["devices"]);
    assert_eq!(run.code, 65);
    assert!(
        run.err.contains("mine.json") && run.err.contains("minor-fiver"),
        "{}",
        run.err
    );
}

#[test]
fn a_device_that_spoils_a_built_in_exercise_is_told() {
    let device = built_in("src/devices/catalogue/minor-four.json");
    let mut device: Value = serde_json::from_str(&device).expect("it is JSON");
    device["asked"] = false.into();
    let home = Home::new("spoiled", &[("devices/mine.json", &device.to_string())]);
    let run = home.run(&["exercises", "--json"]);
    assert_eq!(run.code, 65);
    assert!(run.err.contains("shadows-of-minor.json"), "{}", run.err);
    let found: Value = serde_json::from_str(&run.out).expect("one line of JSON");
    let left = ids(&found, "exercises");
    assert!(left.contains(&"first-cadences".to_owned()));
    assert!(!left.contains(&"shadows-of-minor".to_owned()));
}

#[test]
fn every_file_of_the_repository_passes_its_check() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut count = 0;
    for folder in [
        "exercises",
        "sounds",
        "sounds/kits",
        "src/devices/catalogue",
    ] {
        let files: Vec<String> = fs::read_dir(root.join(folder))
            .expect("it is in the repository")
            .map(|entry| entry.expect("it can be listed").path())
            .filter(|path| path.is_file())
            .map(|path| path.display().to_string())
            .collect();
        let arguments: Vec<&str> = ["check"]
            .into_iter()
            .chain(files.iter().map(String::as_str))
            .collect();
        let run = plagal(&arguments);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{folder}");
        count += run.out.lines().count();
        assert!(
            run.out.lines().all(|line| line.ends_with("no faults")),
            "{}",
            run.out
        );
    }
    assert!(count > 30, "{count} files");
}

#[test]
fn a_check_tells_all_faults_of_all_files() {
    let home = Home::new(
        "check",
        &[
            (
                "one.json",
                "{\"devices\": [\"minor-for\"],\n \"tempo\": 400}",
            ),
            ("two.json", "{\"layers\": []"),
            ("settings.json", "{\"ascii\": true}"),
            ("other.json", "[]"),
        ],
    );
    let files = ["one.json", "two.json", "settings.json", "other.json"].map(|file| home.path(file));
    let [one, two, settings, other] = &files;
    let run = plagal(&["check", one, two, settings, other, "--json"]);
    assert_eq!(run.code, 1);
    let found: Value = serde_json::from_str(&run.out).expect("one line of JSON");
    let checked: Vec<(String, u64)> = found["files"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|file| {
            (
                file["kind"].to_string(),
                file["faults"].as_u64().expect("a number"),
            )
        })
        .collect();
    // The first lacks four fields, names no device rightly, and is too fast.
    let expected = [
        ("\"exercise\"", 6),
        ("null", 1),
        ("\"settings\"", 0),
        ("null", 1),
    ];
    assert_eq!(
        checked,
        expected.map(|(kind, faults)| (kind.to_owned(), faults))
    );
    let errors = errors(&run);
    assert_eq!(errors.len(), 8);
    let tempo = errors
        .iter()
        .find(|error| error["error"]["what"].to_string().contains("is `400`"));
    let tempo = &tempo.expect("the tempo is a fault")["error"];
    assert_eq!(tempo["where"]["file"].as_str(), Some(one.as_str()));
    assert_eq!(
        (&tempo["where"]["line"], &tempo["where"]["column"]),
        (&2.into(), &11.into())
    );
    assert_eq!(
        tempo["expected"],
        "a whole number from 30 to 300, or a list of two, the smaller first"
    );
}

#[test]
fn a_file_that_is_not_there_has_code_66() {
    let run = plagal(&["check", "/no/such/file.json", "--json"]);
    assert_eq!(run.code, 66);
    assert_eq!(
        run.error_json()["error"]["where"]["file"],
        "/no/such/file.json"
    );
}

#[test]
fn a_percussion_of_the_user_is_offered_and_chosen_by_the_settings() {
    let wires = built_in("sounds/kits/brushes.json").replace("\"brushes\"", "\"wires\"");
    let wires = wires.replace("\"level\": -14", "\"level\": -24");
    let chosen = r#"{"kit": "wires"}"#;
    let home = Home::new(
        "kits",
        &[("kits/wires.json", &wires), ("settings.json", chosen)],
    );
    let found = home.run(&["sounds", "--json"]).json();
    assert_eq!(ids(&found, "kits"), ["brushes", "wires"]);
    let file = home.path("band.wav");
    let arguments = [
        "render",
        "ii7 | V7 | I",
        "--key",
        "C",
        "--texture",
        "band",
        "--force",
        "-o",
        &file,
    ];
    assert_eq!(home.run(&arguments).code, 0);
    let by_settings = fs::read(&file).expect("it was written");
    let with_flag = |id| home.run(&[&arguments[..], &["--kit", id]].concat());
    assert_eq!(with_flag("brushes").code, 0);
    assert_eq!(with_flag("none").code, 66);
    fs::write(home.path("settings.json"), "{}").expect("it can be written");
    let by_default = fs::read(&file).expect("it was written");
    assert_eq!(with_flag("wires").code, 0);
    assert!(fs::read(&file).is_ok_and(|by_flag| by_flag == by_settings));
    assert_ne!(by_default, by_settings);
    fs::write(home.path("settings.json"), r#"{"kit": "wire"}"#).expect("it can be written");
    let refused = home.run(&arguments);
    assert!(
        refused.err.contains("wire") && refused.err.contains("wires"),
        "{}",
        refused.err
    );
}

#[test]
fn a_folder_is_checked_with_the_folders_in_it_and_a_pipe_is_refused() {
    let good = built_in("exercises/first-cadences.json");
    let home = Home::new(
        "folders",
        &[
            ("exercises/good.json", &good),
            ("exercises/bad.json", "{}"),
            ("notes.txt", "no data"),
        ],
    );
    let run = home.run(&["check", "--json", &home.path("")]);
    assert_eq!(run.code, 1, "{}", run.err);
    let found: serde_json::Value = serde_json::from_str(&run.out).expect("an object");
    let files = found["files"].as_array().expect("a list");
    assert_eq!(files.len(), 2, "{found}");
    let empty = Home::new("nothing", &[("notes.txt", "no data")]);
    let run = home.run(&["check", &empty.path("")]);
    assert_eq!(run.code, 66, "{}", run.err);
    assert!(run.err.contains("nothing to check"), "{}", run.err);
    // Reading a device may never end.
    let run = home.run(&["check", "/dev/zero"]);
    assert_eq!(run.code, 66, "{}", run.err);
    assert!(run.err.contains("expected a regular file"), "{}", run.err);
}

#[test]
fn a_file_that_is_there_is_overwritten_by_force_alone() {
    let home = Home::new("force", &[("line.mid", "mine")]);
    let file = home.path("line.mid");
    let render = ["render", "I V7 |", "--key", "C", "-o", &file];
    let run = home.run(&render);
    assert_eq!(run.code, 73, "{}", run.err);
    assert!(run.err.contains("--force"), "{}", run.err);
    assert_eq!(fs::read(&file).expect("it is there"), b"mine");
    assert_eq!(home.run(&[&render[..], &["--force"]].concat()).code, 0);
    assert_ne!(fs::read(&file).expect("it is there"), b"mine");
}

#[test]
fn the_output_and_its_blocks_are_flags_over_variables_over_settings() {
    let file = r#"{"output": "alsa:none", "buffer": 2048}"#;
    let home = Home::new("outputs", &[("settings.json", file)]);
    let blocks = |shape: &dyn Fn(&mut std::process::Command)| {
        let mut command = command(&["outputs", "--json"]);
        command.arg("--home").arg(&home.0);
        shape(&mut command);
        let run = run(&mut command);
        // A machine whose sound cannot be asked says so.
        (run.code == 0).then(|| run.json()["buffer"].as_u64().expect("a number"))
    };
    let found = [
        blocks(&|_| {}),
        blocks(&|command| {
            command.env("PLAGAL_AUDIO_BUFFER", "4096");
        }),
        blocks(&|command| {
            command
                .env("PLAGAL_AUDIO_BUFFER", "4096")
                .args(["--audio-buffer", "512"]);
        }),
    ];
    if found[0].is_some() {
        assert_eq!(found, [Some(2048), Some(4096), Some(512)]);
    }
    let wrong = home.run(&["outputs", "--audio-buffer", "1000"]);
    assert_eq!(wrong.code, 2);
    assert!(wrong.err.contains("512, 1024, 2048, 4096"), "{}", wrong.err);
}

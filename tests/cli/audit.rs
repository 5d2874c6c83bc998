//! `plagal audit`: the same seed the same figures, in the shape that programs rely on.

use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_plagal"))
        .args(arguments)
        .env(
            "PLAGAL_HOME",
            std::env::temp_dir().join("plagal-audit-home"),
        )
        .output()
        .expect("the binary runs")
}

fn audit(arguments: &[&str]) -> (Output, serde_json::Value) {
    let output = run(&[&["audit", "--json"], arguments].concat());
    let page = serde_json::from_slice(&output.stdout).expect("JSON");
    (output, page)
}

#[test]
fn figures_come_in_their_places_and_are_those_of_the_seed() {
    let arguments = ["--count", "200", "--seed", "3"];
    let (output, page) = audit(&arguments);
    assert_eq!(output.stdout, audit(&arguments).0.stdout);
    assert_eq!(
        (&page["questions"], &page["seed"]),
        (&200.into(), &3.into())
    );
    for (group, names) in [
        ("truth", ["agreement", "chords", "count"].as_slice()),
        ("fairness", &["faults", "asks", "offers"]),
        ("leaks", &["base_rate", "guess_rate", "low", "high"]),
        ("variety", &["least_distinct", "draws"]),
        (
            "voice_leading",
            &[
                "outer_parallels",
                "range_faults",
                "unresolved_leading_tones",
                "mean_motion",
            ],
        ),
        ("coverage", &["asked"]),
    ] {
        for name in names {
            assert!(page[group][name].is_number(), "{group}.{name} in {page}");
        }
    }
    assert!(page["truth"]["disagreements"].is_array() && page["fairness"]["cases"].is_array());
    assert!(page["variety"]["device"].is_string() && page["coverage"]["missing"].is_array());
}

#[test]
fn a_named_exercise_is_audited_alone_and_a_shortfall_is_told_by_the_exit_code() {
    // Two questions cannot ask three devices.
    let (output, page) = audit(&["first-cadences", "--count", "2"]);
    assert_eq!(output.status.code(), Some(1), "{output:?}");
    assert_eq!(
        page["coverage"]["missing"].as_array().map(Vec::len),
        Some(1)
    );
    let output = run(&["audit", "first-cadences", "--count", "2"]);
    let told = String::from_utf8(output.stdout).expect("text");
    assert!(told.contains("never asked: "), "{told}");
    let output = run(&["audit", "first-cadence"]);
    assert_eq!(output.status.code(), Some(66));
    let told = String::from_utf8(output.stderr).expect("text");
    assert!(told.contains("did you mean `first-cadences`?"), "{told}");
}

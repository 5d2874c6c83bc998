//! `plagal simulate`: the same learners for every way of choosing, and logs of real answers.

use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_plagal"))
        .args(arguments)
        .output()
        .expect("the binary runs")
}

#[test]
fn the_figures_are_those_of_the_seed() {
    let arguments = [
        "simulate",
        "--learners",
        "4",
        "--world",
        "alike",
        "--policy",
        "bag",
        "scorer",
        "--json",
    ];
    let first = run(&arguments);
    assert!(first.status.success(), "{first:?}");
    assert_eq!(first.stdout, run(&arguments).stdout);
    let page: serde_json::Value = serde_json::from_slice(&first.stdout).expect("JSON");
    assert_eq!(page["learners"], 4);
    let world = &page["worlds"][0];
    assert_eq!(
        (&world["id"], &world["policies"][0]["id"]),
        (&"alike".into(), &"bag".into())
    );
    assert_eq!(world["policies"][0]["against_bag"], 0.0);
    for name in [
        "delayed",
        "low",
        "high",
        "to_mastery",
        "censored",
        "calibration",
    ] {
        assert!(world["policies"][1][name].is_number(), "{name} in {world}");
    }
}

#[test]
fn a_log_of_answers_is_predicted_and_a_bad_line_is_named() {
    let path = std::env::temp_dir().join(format!("plagal-log-{}.csv", std::process::id()));
    // Learners who hear everything after ten answers.
    let mut log = "learner,item,right\n".to_owned();
    for learner in 0..10 {
        for answer in 0..60 {
            log += &format!("{learner},{},{}\n", answer % 2, u8::from(answer > 10));
        }
    }
    std::fs::write(&path, &log).expect("room");
    let name = path.to_str().expect("a plain name");
    let output = run(&["simulate", "--answers", name, "--json"]);
    let page: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let all = &page["answers"][0];
    assert_eq!(
        (&all["learners"], &all["answers"]),
        (&10.into(), &600.into())
    );
    assert!(all["less"].as_f64().expect("a number") > 0.0, "{page}");

    std::fs::write(&path, log + "1,2,maybe\n").expect("room");
    let output = run(&["simulate", "--answers", name]);
    std::fs::remove_file(&path).expect("it was made above");
    assert_eq!(output.status.code(), Some(65));
    let told = String::from_utf8(output.stderr).expect("text");
    assert!(told.contains("line 602: `1,2,maybe`"), "{told}");
}

//! A call that touches the journal fails, or the program is killed at it or in the middle of
//! a write: for every such call of a drill, a merge and a forgetting. The calls are caught
//! by a library put before the C library (`tests/faults/shim.c`).
//!
//! After each, every answer whose mark was shown is in the journal, in the rescue file or
//! printed; none of another learner is gone; no file of answers may be read by others.
//! Without a C compiler the test says so and stops, and fails if `CI=true`.

use std::fs;
use std::process::Output;

use crate::place::{Fault, Place, answers, line};

const HOW: [&str; 4] = ["kill", "tear", "fail", "full"];

/// Tries a command at every call until it makes no more; gives the number of points.
fn every(
    place: &Place,
    journal: Option<&str>,
    arguments: &[&str],
    check: &dyn Fn(&Output, &str),
) -> usize {
    let mut points = 0;
    for (how, everywhere) in HOW.iter().flat_map(|how| [(*how, false), (*how, true)]) {
        for number in 1.. {
            let fault = Fault {
                number,
                how,
                everywhere,
            };
            place.fresh(journal);
            let output = place.run(arguments, &"1\n".repeat(40), &fault);
            check(&output, &format!("{arguments:?} {fault:?}"));
            if !place.reached() {
                break;
            }
            points += 1;
        }
    }
    points
}

#[test]
fn no_failing_call_and_no_kill_costs_an_answer() {
    let Some(place) = Place::new("faults") else {
        return;
    };
    let torn = format!("{}{}", line("ben", 0), &line("ada", 5)[..90]);
    let drill = [
        "drill",
        "first-cadences",
        "--json",
        "--seed",
        "5",
        "--questions",
        "2",
    ];
    let mut points = 0;
    for journal in [None, Some(torn.as_str())] {
        points += every(&place, journal, &drill, &|output, what| {
            let out = String::from_utf8_lossy(&output.stdout);
            let questions = out.matches("\"event\":\"mark\"").count() as u64;
            let mut kept = place.kept();
            kept.extend(answers(&String::from_utf8_lossy(&output.stderr)));
            for index in 0..questions {
                assert!(
                    kept.contains(&("pupil".to_owned(), index)),
                    "{what}: {output:?}"
                );
            }
            assert!(
                journal.is_none() || kept.contains(&("ben".to_owned(), 0)),
                "{what}"
            );
        });
    }
    let rescued = place.at("rescued.jsonl");
    fs::write(&rescued, line("ada", 0) + &line("cleo", 1)).expect("room");
    let own = line("ben", 0) + &line("ben", 1) + &line("ada", 5)[..90];
    let merge = ["journal", "merge", rescued.to_str().expect("a plain path")];
    points += every(&place, Some(&own), &merge, &|output, what| {
        let kept = place.kept();
        assert!(
            (0..2).all(|index| kept.contains(&("ben".to_owned(), index))),
            "{what}"
        );
        let all = kept.contains(&("ada".to_owned(), 0)) && kept.contains(&("cleo".to_owned(), 1));
        assert!(!output.status.success() || all, "{what}: {output:?}");
    });
    let both = line("ben", 0) + &line("ada", 0) + &line("ben", 1) + &line("ada", 5)[..90];
    points += every(
        &place,
        Some(&both),
        &["journal", "forget", "ada"],
        &|output, what| {
            let kept = place.kept();
            assert!(
                (0..2).all(|index| kept.contains(&("ben".to_owned(), index))),
                "{what}"
            );
            let gone = !kept.contains(&("ada".to_owned(), 0));
            assert!(!output.status.success() || gone, "{what}: {output:?}");
        },
    );
    assert!(points > 300, "the calls were caught: {points}");
    println!("{points} points, no answer lost");
}

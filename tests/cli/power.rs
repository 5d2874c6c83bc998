//! The power goes, or the program is killed, after any call that touches the disk, and after
//! any call before it has failed: an answer whose mark was shown is there; so are those of
//! other learners; what was forgotten is gone; and no answer stands twice in the journal.
//!
//! The program runs once for each failing call, with its calls recorded. What each loss
//! leaves is worked out from the records by the rules in `drive.rs`, not by the program's own.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;

use crate::drive::{Deed, Drive, Loss, deeds};
use crate::place::{Fault, Place, answers, line};

/// What is left after a loss, and what was told before.
struct After<'a> {
    files: BTreeMap<PathBuf, Vec<u8>>,
    out: &'a str,
    err: &'a str,
}

impl After<'_> {
    fn text(&self) -> String {
        let texts = self.files.values().map(|bytes| {
            // A name that is there without its end is no line.
            String::from_utf8_lossy(bytes).into_owned() + "\n"
        });
        texts.collect()
    }

    fn kept(&self) -> BTreeSet<(String, u64)> {
        answers(&self.text())
    }

    /// The lines of the journal that are answers, by learner and index.
    fn journal(&self) -> Vec<(String, u64)> {
        let is_journal = |path: &&PathBuf| path.ends_with("data/journal.jsonl");
        let path = self.files.keys().find(is_journal);
        let bytes = path
            .map(|path| self.files[path].clone())
            .unwrap_or_default();
        let text = String::from_utf8_lossy(&bytes).into_owned();
        text.lines().flat_map(answers).collect()
    }
}

/// Runs a command with one fault and looks at what is left after each loss after each call;
/// gives the number of losses.
fn losses(
    place: &Place,
    journal: Option<&str>,
    arguments: &[&str],
    fault: &Fault,
    check: &dyn Fn(&After<'_>, &str),
) -> usize {
    place.fresh(journal);
    let mut drive = Drive::of(&place.at("disk"));
    place.run(arguments, &"1\n".repeat(40), fault);
    let deeds = deeds(&fs::read(place.at("log")).unwrap_or_default());
    let (mut out, mut err) = (String::new(), String::new());
    for (number, deed) in deeds.iter().enumerate() {
        match deed {
            Deed::Out(text) => out += text,
            Deed::Err(text) => err += text,
            deed => drive.act(deed),
        }
        for loss in Loss::ALL {
            let files = drive.left(loss);
            let (out, err) = (&out, &err);
            let what = format!("{arguments:?} {fault:?} {loss:?} after {number} {deed:?}");
            check(&After { files, out, err }, &what);
        }
    }
    // Nothing was done to the disk behind the back of the records.
    let found = drive.left(Loss::Killed);
    assert_eq!(found, Drive::of(&place.at("disk")).left(Loss::Killed));
    deeds.len() * Loss::ALL.len()
}

/// Without a fault, and then with each fault at each call.
fn every(
    place: &Place,
    journal: Option<&str>,
    arguments: &[&str],
    check: &dyn Fn(&After<'_>, &str),
) -> usize {
    let mut points = 0;
    for (how, everywhere) in [
        ("none", false),
        ("fail", true),
        ("pair", true),
        ("full", false),
    ] {
        for number in 1.. {
            let fault = Fault {
                number,
                how,
                everywhere,
            };
            points += losses(place, journal, arguments, &fault, check);
            if !place.reached() || how == "none" {
                break;
            }
        }
    }
    points
}

fn once(after: &After<'_>, what: &str) {
    let lines = after.journal();
    let different: BTreeSet<_> = lines.iter().collect();
    assert_eq!(lines.len(), different.len(), "twice: {what}: {lines:?}");
}

#[test]
fn no_loss_of_power_costs_an_answer() {
    let Some(place) = Place::new("power") else {
        return;
    };
    let torn = format!("{}{}", line("ben", 0), &line("ada", 5)[..90]);
    let ben = ("ben".to_owned(), 0);
    let drill = [
        "drill",
        "first-cadences",
        "--json",
        "--seed",
        "5",
        "--questions",
        "3",
    ];
    let mut points = 0;
    for journal in [None, Some(torn.as_str())] {
        points += every(&place, journal, &drill, &|after, what| {
            once(after, what);
            let kept = after.kept();
            let marks = after.out.matches("\"event\":\"mark\"").count() as u64;
            // What no disk took was told, and waits in memory.
            let is_told = after.err.contains("nor to");
            for index in (0..marks).filter(|_| !is_told) {
                assert!(kept.contains(&("pupil".to_owned(), index)), "{what}");
            }
            assert!(journal.is_none() || kept.contains(&ben), "{what}");
        });
    }
    let rescued = place.at("rescued.jsonl");
    fs::write(&rescued, line("ada", 0) + &line("cleo", 1)).expect("room");
    let merge = ["journal", "merge", rescued.to_str().expect("a plain path")];
    points += every(&place, Some(&torn), &merge, &|after, what| {
        once(after, what);
        let kept = after.kept();
        assert!(kept.contains(&ben), "{what}");
        let all = kept.contains(&("ada".to_owned(), 0)) && kept.contains(&("cleo".to_owned(), 1));
        assert!(all || after.out.is_empty(), "{what}: {}", after.out);
    });
    let both = line("ada", 0) + &torn;
    let forget = ["journal", "forget", "ada"];
    points += every(&place, Some(&both), &forget, &|after, what| {
        once(after, what);
        assert!(after.kept().contains(&ben), "{what}");
        let gone = !after.text().contains("ada");
        assert!(gone || after.out.is_empty(), "{what}: {}", after.out);
    });
    assert!(points > 10_000, "the calls were recorded: {points}");
    println!("{points} losses, no answer lost");
}

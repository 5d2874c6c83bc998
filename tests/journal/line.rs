//! Lines of the journal: bytes of every format ever written stay readable.

use plagal::journal::{
    Entry, FORMAT, JournalLine, KeySetting, ReportedEntry, ScoredEntry, parse, print,
};
use proptest::prelude::*;

/// A line as format 1 wrote it. These bytes never change.
const FORMAT_1: &str = r#"{"version":1,"id":"18f0c2a7d31-5be1-3","time":1760000000123,"learner":"ada","session":"18f0c2a7d31-5be1","exercise":"borrowed-colours","seed":18446744073709551615,"index":3,"kind":"name-the-chord","key":"Eb major","line":"IVadd6 | ivadd6 | I %","tempo":96.0,"sound":"upright","texture":"held","key_setting":"cadence","answers":9,"difficulty":{"inversion":0.25,"texture":0.0,"tempo":0.4,"similarity":0.75},"thinking":4210,"replays":1,"slots":[{"slot":1,"devices":["minor-four","minor-four-added-sixth"],"truth":"ivadd6","function":"borrowed subdominant","quality":"minor","degree":"4","bass":"4","answer":"bVII7","mark":"near","credit":0.5,"heard_as":"backdoor-dominant"}]}"#;

fn known(text: &str) -> Entry {
    match parse::<Entry>(text) {
        Ok(JournalLine::Known(entry)) => entry,
        other => panic!("expected an entry, found {other:?}"),
    }
}

#[test]
fn format_1_means_what_it_meant() {
    let entry = known(FORMAT_1);
    assert_eq!(entry.version, 1);
    assert_eq!(entry.time, 1_760_000_000_123);
    assert_eq!(entry.seed, u64::MAX);
    assert_eq!(entry.key_setting, KeySetting::Cadence);
    assert_eq!(entry.difficulty.similarity, 0.75);
    let slot = &entry.slots[0];
    assert_eq!(slot.devices[1].as_str(), "minor-four-added-sixth");
    assert_eq!((slot.credit, slot.mark.as_str()), (0.5, "near"));
    assert_eq!(
        slot.heard_as
            .as_ref()
            .map(plagal::devices::DeviceId::as_str),
        Some("backdoor-dominant")
    );
}

#[test]
fn format_1_is_still_what_is_written() {
    assert_eq!(FORMAT, 1, "a new format needs frozen bytes of its own here");
    assert_eq!(print(&known(FORMAT_1)), format!("{FORMAT_1}\n"));
}

#[test]
fn a_glance_is_the_same_from_the_line_and_from_the_entry() {
    let entry = known(FORMAT_1);
    assert_eq!(
        parse::<ScoredEntry>(FORMAT_1),
        Ok(JournalLine::Known(entry.scored()))
    );
}

#[test]
fn unknown_fields_are_passed_over() {
    let line = FORMAT_1.replacen('{', r#"{"weather":{"sky":["grey"]},"#, 1);
    assert_eq!(known(&line), known(FORMAT_1));
}

#[test]
fn a_slot_without_a_device_heard_need_not_say_so() {
    let line = FORMAT_1.replace(r#","heard_as":"backdoor-dominant""#, "");
    assert_eq!(known(&line).slots[0].heard_as, None);
}

#[test]
fn an_explanation_is_told_only_where_there_was_one() {
    let mut entry = known(FORMAT_1);
    assert_eq!(entry.explained, 0);
    entry.explained = 3;
    let line = print(&entry);
    assert!(line.contains(r#""explained":3"#), "{line}");
    assert_eq!(known(line.trim_end()), entry);
    assert_eq!(
        parse::<ScoredEntry>(line.trim_end()),
        Ok(JournalLine::Known(entry.scored()))
    );
}

#[test]
fn a_newer_line_is_recognised_whatever_it_holds() {
    let like_ours = FORMAT_1.replacen(r#""version":1"#, r#""version":2"#, 1);
    assert_eq!(parse::<Entry>(&like_ours), Ok(JournalLine::Newer(2)));
    assert_eq!(
        parse::<ReportedEntry>(&like_ours),
        Ok(JournalLine::Newer(2))
    );
    assert_eq!(parse::<ScoredEntry>(&like_ours), Ok(JournalLine::Newer(2)));
    let unlike = r#"{"version":7,"what":"nobody knows yet"}"#;
    assert_eq!(parse::<Entry>(unlike), Ok(JournalLine::Newer(7)));
    assert_eq!(parse::<ScoredEntry>(unlike), Ok(JournalLine::Newer(7)));
}

#[test]
fn faults_name_the_place_and_stay_on_the_screen() {
    let fault = parse::<Entry>(&FORMAT_1[..100]).expect_err("half a line");
    assert_eq!(fault.column, 100);
    let bad = FORMAT_1.replace("minor-four\"", "Minor\u{1b}[2J\"");
    let message = parse::<Entry>(&bad.replace('\u{1b}', "\\u001b"))
        .expect_err("no device id")
        .to_string();
    assert!(message.contains("is not a device id"), "{message}");
    assert!(!message.contains('\u{1b}'), "{message:?}");
}

#[test]
fn every_cut_of_a_line_is_a_fault() {
    for cut in 0..FORMAT_1.len() {
        assert!(parse::<Entry>(&FORMAT_1[..cut]).is_err(), "cut at {cut}");
        assert!(
            parse::<ScoredEntry>(&FORMAT_1[..cut]).is_err(),
            "cut at {cut}"
        );
    }
}

/// The quick reader of printed lines may not take what the reader of all JSON refuses.
#[test]
fn a_glance_reads_every_change_of_a_byte_as_json_reads_it() {
    let same = |line: &str| match (parse::<ScoredEntry>(line), serde_json::from_str(line)) {
        (Ok(JournalLine::Known(quick)), Ok(slow)) => assert_eq!(quick, slow, "{line}"),
        (Ok(JournalLine::Newer(version)), _) => assert!(version > FORMAT, "{line}"),
        (quick, slow) => assert!(quick.is_err() && slow.is_err(), "{line}"),
    };
    let explained = FORMAT_1.replace(r#","slots""#, r#","explained":2,"slots""#);
    for whole in [FORMAT_1, &explained] {
        for at in 0..whole.len() {
            for byte in "0159.-+eE\"\\,:{}[]nx \t\u{1}".bytes() {
                let mut line = whole.to_owned().into_bytes();
                line[at] = byte;
                same(std::str::from_utf8(&line).expect("all of it is ASCII"));
                line.insert(at, byte);
                same(std::str::from_utf8(&line).expect("all of it is ASCII"));
            }
            same(&[&whole[..at], &whole[at + 1..]].concat());
        }
    }
}

proptest! {
    #[test]
    fn print_then_parse_gives_the_entry_back(
        time in any::<u64>(),
        seed in any::<u64>(),
        texts in prop::collection::vec(any::<String>(), 9),
        numbers in prop::collection::vec(-1e9..1e9_f64, 2),
        counts in prop::collection::vec(any::<u32>(), 3),
        heard in any::<bool>(),
    ) {
        let mut entry = known(FORMAT_1);
        entry.time = time;
        entry.seed = seed;
        entry.learner.clone_from(&texts[0]);
        entry.session.clone_from(&texts[1]);
        entry.exercise.clone_from(&texts[2]);
        entry.line.clone_from(&texts[3]);
        entry.key.clone_from(&texts[4]);
        entry.tempo = numbers[0];
        entry.index = counts[0];
        entry.answers = counts[1];
        entry.replays = counts[2];
        let slot = &mut entry.slots[0];
        slot.answer.clone_from(&texts[5]);
        slot.truth.clone_from(&texts[6]);
        slot.function.clone_from(&texts[7]);
        slot.mark.clone_from(&texts[8]);
        slot.credit = numbers[1];
        if !heard {
            slot.heard_as = None;
        }
        let line = print(&entry);
        prop_assert_eq!(line.matches('\n').count(), 1);
        let text = line.trim_end_matches('\n');
        prop_assert_eq!(parse::<ScoredEntry>(text), Ok(JournalLine::Known(entry.scored())));
        prop_assert_eq!(parse::<Entry>(text), Ok(JournalLine::Known(entry)));
    }
}

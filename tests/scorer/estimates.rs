//! What the scorer believes after a frozen journal, to nine places: whatever changes a belief
//! changes these figures, and has to say why. Made by the program itself
//! (`PLAGAL_BLESS=1 cargo test --test scorer estimates`), so that it shows change, not truth.

use std::fmt::Write;
use std::path::Path;

use plagal::devices::DeviceId;
use plagal::journal::{Entry, JournalLine, parse};
use plagal::scorer::Scorer;

const DEVICES: [(&str, &str); 6] = [
    ("minor-four", "mixture"),
    ("backdoor-dominant", "mixture"),
    ("flat-six", "mixture"),
    ("dominant-of-two", "applied"),
    ("dominant-of-five", "applied"),
    ("neapolitan", "mixture"),
];

const DAY: u64 = 86_400_000;
const START: u64 = 1_760_000_000_000;

/// Answers on several days, some in a row to one device, at every ease and key setting: easy
/// devices and hard ones, one that comes at once, one that nobody asks.
fn journal() -> impl Iterator<Item = String> {
    (0..240_u64).map(|number| {
        let at = [0, 0, 1, 2, 3, 3, 4, 0, 1, 2, 4, 3][(number % 12) as usize];
        let (device, _) = DEVICES[at];
        let (heard_as, _) = DEVICES[(at + 1) % 5];
        let credit = match at {
            0 => [1.0, 1.0, 0.5, 1.0][(number % 4) as usize],
            1 => f64::from(u8::from(number % 5 == 0)),
            2 => f64::from(u8::from(number > 120)),
            3 => f64::from(u8::from(number % 3 != 0)),
            _ => 1.0,
        };
        let day = number / 40;
        let time = START + day * day * DAY + number * 40_000;
        let setting = ["cadence", "tonic", "nothing"][(number % 3) as usize];
        let answers = [5, 9, 0][(number / 7 % 3) as usize];
        let hard = |step: u64| (number * step % 10) as f64 / 10.0;
        let (inversion, texture, tempo, similarity) = (hard(3) / 2.0, hard(7), hard(9), hard(1));
        let explained = if number % 31 == 0 { 3 } else { 0 };
        let devices = if number % 9 == 0 {
            format!("\"{device}\",\"{heard_as}\"")
        } else {
            format!("\"{device}\"")
        };
        let heard_as = if credit < 0.5 { format!("\"{heard_as}\"") } else { "null".to_owned() };
        format!(
            r#"{{"version":1,"id":"s-{number}","time":{time},"learner":"ada","session":"s","exercise":"mixed-colours","seed":7,"index":{number},"kind":"name-chords","key":"G","line":"IV iv I","tempo":96.0,"sound":"piano","texture":"held-chords","key_setting":"{setting}","answers":{answers},"difficulty":{{"inversion":{inversion:?},"texture":{texture:?},"tempo":{tempo:?},"similarity":{similarity:?}}},"thinking":900,"replays":0,"explained":{explained},"slots":[{{"slot":1,"devices":[{devices}],"truth":"iv","function":"subdominant","quality":"minor","degree":"4","bass":"4","answer":"iv","mark":"right","credit":{credit:?},"heard_as":{heard_as}}}]}}"#
        )
    })
}

/// The standings after 20, 120 and all answers, and a month later.
fn beliefs() -> String {
    let devices = DEVICES.map(|(id, family)| (id.parse::<DeviceId>().expect("an id"), family));
    let mut scorer = Scorer::new(devices);
    let mut text = "answers\tdevice\testimate\tlow\thigh\tshare\n".to_owned();
    let mut tell = |scorer: &Scorer, answers: &str, now: u64| {
        for standing in scorer.standings(now) {
            let (estimate, low) = (standing.estimate, standing.low);
            let (high, share) = (standing.high, standing.share);
            let device = standing.device;
            writeln!(
                text,
                "{answers}\t{device}\t{estimate:.12}\t{low:.12}\t{high:.12}\t{share:.12}"
            )
            .expect("a string takes it");
        }
    };
    let mut now = START;
    for (number, line) in journal().enumerate() {
        let Ok(JournalLine::Known(entry)) = parse::<Entry>(&line) else {
            panic!("not an entry: {line}");
        };
        now = entry.time;
        scorer.fold(&entry);
        if [20, 120, 240].contains(&(number + 1)) {
            tell(&scorer, &(number + 1).to_string(), now);
        }
    }
    tell(&scorer, "a month later", now + 30 * DAY);
    text
}

#[test]
fn the_estimates_of_a_frozen_journal_stay() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/scorer/estimates.tsv");
    let now = beliefs();
    if std::env::var_os("PLAGAL_BLESS").is_some() {
        std::fs::write(&path, &now).expect("it can be written");
    }
    let frozen = std::fs::read_to_string(&path).expect("the fixture is there");
    assert_eq!(frozen.lines().count(), now.lines().count());
    for (frozen, now) in frozen.lines().zip(now.lines()) {
        let cells = frozen.split('\t').zip(now.split('\t'));
        for (frozen_cell, now_cell) in cells {
            let same = match (frozen_cell.parse::<f64>(), now_cell.parse::<f64>()) {
                (Ok(one), Ok(other)) => (one - other).abs() < 1e-9,
                _ => frozen_cell == now_cell,
            };
            assert!(same, "was {frozen}\nis  {now}");
        }
    }
}

//! Whole texts read with all their faults.

use insta::assert_snapshot;
use proptest::prelude::{ProptestConfig, any, proptest};

use super::{
    Faults, Mismatch, Object, Problem, Value, distinct, flag, known, number, one_of, one_or_list,
    parsed, placed, read, single_or_pair, text, utf8, whole,
};

#[derive(Debug, PartialEq)]
struct Recipe {
    title: String,
    hours: std::ops::RangeInclusive<u8>,
    warmth: f64,
    colour: char,
    herbs: Vec<String>,
    pair: Option<(i32, i32)>,
    covered: bool,
}

fn half(text: &str) -> Result<(i32, i32), Mismatch> {
    let (left, right) = text
        .split_once('/')
        .ok_or_else(|| Mismatch::new(format!("`{text}` has no `/`")))?;
    let start = left.len() + 1;
    Ok((
        left.parse()?,
        right.parse().map_err(|_| {
            Mismatch::new(format!("`{right}` is not a number")).at(start..text.len())
        })?,
    ))
}

fn recipe(value: &Value, faults: &mut Faults) -> Option<Recipe> {
    let mut fields = Object::of(value, faults)?;
    let title = fields.required("title", text(1..=12));
    let hours = fields.required("hours", single_or_pair(whole(1..=20)));
    let warmth = fields.required("warmth", number(0.5..=2.0));
    let colour = fields.required(
        "colour",
        one_of(&[("red", 'r'), ("green", 'g'), ("blue", 'b')]),
    );
    let herbs = fields.required(
        "herbs",
        one_or_list(1..=3, known("a herb", &["sage", "thyme"])),
    );
    let pair = fields.optional("pair", placed(parsed("a fraction such as `1/2`", half)));
    let covered = fields.optional("covered", flag).unwrap_or(false);
    fields.finish();
    if let Some(pair) = &pair
        && pair.value.1 == 0
    {
        pair.spot
            .fault(Problem::wrong("nothing is divided by 0"), faults);
    }
    Some(Recipe {
        title: title?,
        hours: hours?,
        warmth: warmth?,
        colour: colour?,
        herbs: herbs?,
        pair: pair.map(|pair| pair.value),
        covered,
    })
}

/// Each fault on a line: place, width, message.
fn faults(text: &str) -> String {
    let faults = read(text, recipe).expect_err("it has faults");
    faults
        .iter()
        .map(|fault| format!("{} ({}) {fault}\n", fault.place, fault.width))
        .collect()
}

#[test]
fn a_good_text_is_read() {
    let good = "\u{feff}{\"title\": \"Caf\\u00e9\", \"hours\": [2, 3], \"warmth\": 1e0,
        \"colour\": \"green\", \"herbs\": \"sage\", \"pair\": \"1/2\"}";
    let expected = Recipe {
        title: "Café".to_owned(),
        hours: 2..=3,
        warmth: 1.0,
        colour: 'g',
        herbs: vec!["sage".to_owned()],
        pair: Some((1, 2)),
        covered: false,
    };
    assert_eq!(read(good, recipe).expect("it is good"), expected);
}

#[test]
fn all_faults_are_found_at_once() {
    assert_snapshot!(faults(r#"{
  "titel": "Slow",
  "hours": [9, 4],
  "warmth": 40,
  "colour": "gren",
  "herbs": ["thime", "sage", 3],
  "pair": "\u0031/two",
  "covered": "yes",
  "covered": true
}"#), @r#"
    1:1 (1) `title` is missing; expected text of 1 to 12 characters
    2:3 (7) `titel` is not a field here; did you mean `title`?
    3:12 (6) `hours`: the pair falls from 9 to 4; expected the smaller number first
    4:13 (2) `warmth` is `40`; expected a number from 0.5 to 2
    5:13 (6) `colour` is `gren`; expected `red`, `green` or `blue`; did you mean `green`?
    6:13 (7) `herbs[0]` is `thime`; expected the id of a herb: `sage` or `thyme`; did you mean `thyme`?
    6:30 (1) `herbs[2]` is `3`; expected the id of a herb: `sage` or `thyme`
    7:19 (3) `pair`: `two` is not a number
    8:14 (5) `covered` is `"yes"`; expected `true` or `false`
    9:3 (9) `covered` already stands at 8:3
    "#);
}

#[test]
fn entries_may_not_repeat_and_ranges_hold() {
    assert_snapshot!(faults(r#"{"title": "a\u001b[2J", "hours": 2.5, "warmth": 1e999,
"colour": null, "herbs": ["sage", "thyme", "sage"], "pair": "1/0"}"#), @r#"
    1:11 (12) `title` is `"a\u001b[2J"`; expected text without control or invisible characters
    1:34 (3) `hours` is `2.5`; expected a whole number from 1 to 20, or a list of two, the smaller first
    1:49 (5) `warmth` is `1e999`; expected a number from 0.5 to 2
    2:11 (4) `colour` is `null`; expected `red`, `green` or `blue`
    2:44 (6) `herbs[2]` repeats `sage` of 2:27
    2:61 (5) `pair`: nothing is divided by 0
    "#);
}

#[test]
fn an_empty_object_names_all_it_misses() {
    assert_snapshot!(faults("{}"), @"
    1:1 (1) `title` is missing; expected text of 1 to 12 characters
    1:1 (1) `hours` is missing; expected a whole number from 1 to 20, or a list of two, the smaller first
    1:1 (1) `warmth` is missing; expected a number from 0.5 to 2
    1:1 (1) `colour` is missing; expected `red`, `green` or `blue`
    1:1 (1) `herbs` is missing; expected the id of a herb: `sage` or `thyme`
    ");
}

#[test]
fn broken_syntax_is_one_fault_in_our_words() {
    let cases = [
        "",
        "  \n ",
        "[",
        "{\"a\": 1,}",
        "{\"a\": 1 \"b\": 2}",
        "{\"a\" 1}",
        "{a: 1}",
        "{\"a\": tru}",
        "{\"a\": 'b'}",
        "{\"a\": 1} // why",
        "{\"a\": +1}",
        "{\"a\": 0x1F}",
        "{\"a\": .5}",
        "{\"a\": \"b\n\"}",
        "{\"a\": \"b\u{1b}\"}",
        "{\"a\": \"\\q\"}",
        "{\"a\": \"\\ud800\"}",
        "{\"a\":\u{a0}1}",
        "{} {}",
        "{\"a\": 01}",
        "{\"a\": \u{1b}[31m}",
        "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[",
    ];
    let all: String = cases.iter().map(|case| faults(case)).collect();
    assert_snapshot!(all, @r#"
    1:1 (1) the text ends here; expected a JSON value
    2:2 (1) the text ends here; expected a JSON value
    1:2 (1) the text ends here; expected `]`
    1:8 (1) `,` cannot stand here; expected no comma after the last one
    1:8 (1) `"` cannot stand here; expected `,` before the next one
    1:6 (1) `1` cannot stand here; expected `:` after the field's name
    1:2 (1) `a` cannot stand here; expected a field's name in double quotes, or `}`
    1:7 (3) `tru` cannot stand here; expected a value
    1:7 (1) `'` cannot stand here; expected double quotes around text
    1:10 (6) `/` cannot stand here; expected no comments in a data file
    1:7 (1) `+1` cannot stand here; expected a number in decimal digits
    1:7 (1) `0x1F` cannot stand here; expected a number in decimal digits
    1:7 (1) `.5` cannot stand here; expected a digit on both sides of the point
    1:9 (1) the line ends here; expected the closing `"`
    1:9 (1) `\u001b` cannot stand here; expected control characters as escapes
    1:8 (2) `\` cannot stand here; expected an escape of JSON: `\"`, `\\`, `\/`, `\n`, `\t`, `\u266d`
    1:8 (7) `\` cannot stand here; expected the number of a character after `\u`
    1:6 (1) ` ` cannot stand here; expected an ordinary space
    1:4 (1) `{` cannot stand here; expected the end of the file
    1:8 (1) `1` cannot stand here; expected `,` before the next one
    1:7 (1) `\u001b` cannot stand here; expected a value
    1:33 (1) `[` cannot stand here; expected at most 32 lists and objects in one another
    "#);
}

#[test]
fn a_text_too_large_and_bytes_that_are_no_text_are_refused() {
    let large = " ".repeat(1_000_001);
    assert_snapshot!(faults(&large), @"1:1 (1) the file: it is too large; expected at most 1000000 bytes");
    assert!(utf8(large.as_bytes()).is_err());
    let faults = utf8(b"{\n \"a\": \"\xff\"}").expect_err("not UTF-8");
    let all: Vec<String> = faults.iter().map(|f| format!("{} {f}", f.place)).collect();
    assert_snapshot!(all.join("\n"), @"2:8 `0xff` cannot stand here; expected text in UTF-8");
}

#[test]
fn a_flood_of_faults_is_counted_and_not_listed() {
    let flood = format!("[{}]", vec!["1"; 5000].join(","));
    let faults = read(&flood, distinct(0..=9999, flag)).expect_err("all are wrong");
    assert_eq!(faults.len(), 201);
    let last = faults.iter().last().expect("it is not empty");
    assert_eq!(last.to_string(), "4800 more faults are not listed");
}

/// Reads anything at all, to reach every value.
fn anything(value: &Value, faults: &mut Faults) -> Option<usize> {
    if value.is_list() {
        let entries = distinct(0..=usize::MAX, anything)(value, faults)?;
        return Some(entries.len());
    }
    value.as_text().map(str::len).or(Some(0))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    /// serde_json, a parser of its own, is the outside judge of what is JSON.
    #[test]
    fn what_is_read_is_json(text in r#"[\[\]{}:,"\\u0-9a-f.\-+eE \n\tntr♭\x1b]{0,24}"#) {
        if read(&text, anything).is_ok() {
            let judged: Result<serde_json::Value, _> = serde_json::from_str(&text);
            assert!(judged.is_ok(), "{text:?}");
        }
    }

    #[test]
    fn no_text_is_too_strange(text in any::<String>()) {
        let _ = read(&text, recipe);
        let _ = read(&format!("{{\"title\": \"{text}\", \"pair\": \"{text}\"}}"), recipe);
    }
}

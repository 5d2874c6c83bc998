//! RomanText numerals against music21 10.5.1 (PyPI, BSD-3-Clause): numerals made up for
//! `outside/roman_text.tsv` by `outside/roman_text.py`, and, where `PLAGAL_ROMAN_TEXT`
//! names a file that `outside/corpus.py` wrote, all 8,112 numerals of the 68 analyses in
//! music21's corpus and their 364 pivots. Nothing of that corpus is copied here;
//! `.ci/oracle.sh` fetches it and runs the comparison.

use std::collections::BTreeMap;

use plagal::theory::{Head, IntervalClass, Key, Member, RomanText, RomanTextExpected};

use crate::tables::{Cell, names, rows, source};

const TABLE: &str = include_str!("roman_text.tsv");

/// What our reading of a figure in a key says against music21's; nothing if they agree.
fn disagreement(figure: &str, key: Key, cell: &Cell) -> Option<String> {
    let read = match RomanText::read(figure, key.mode()) {
        Ok(read) => read,
        Err(error) => return Some(error.to_string()),
    };
    let notes = match read.notes(key) {
        Ok(notes) => notes,
        Err(error) => return Some(error.to_string()),
    };
    let spelled = names(notes.iter().copied());
    if spelled != cell.names() {
        return Some(format!("{spelled} against {}", cell.names()));
    }
    // Where the bass itself is left out, the lowest note that stays is only a matter of
    // how music21 stacks its notes.
    let bass = key.note(read.numeral.sounding_bass());
    if notes.contains(&bass) && bass != cell.bass {
        return Some(format!("bass {bass} against {}", cell.bass));
    }
    // An augmented sixth has no root that all agree on.
    let root = key.note(read.numeral.root());
    let is_rooted = !matches!(read.numeral.head, Head::AugmentedSixth(_))
        && !read.omitted.contains(&Member::Root);
    (is_rooted && cell.root != Some(root)).then(|| {
        format!(
            "root {root} against {:?}",
            cell.root.map(|note| note.to_string())
        )
    })
}

/// Whether music21 has a seventh here that has no name in this kind of chord, such as the
/// diminished one of a minor triad or the augmented one of `bI7`; we refuse those.
fn has_nameless_seventh(cell: &Cell) -> bool {
    let root = cell.root.expect("a chord with a root");
    let seventh = cell
        .notes
        .iter()
        .map(|note| note.above(root))
        .find(|interval| interval.steps() == 6);
    seventh.is_some_and(|interval| {
        interval != IntervalClass::MAJOR_SEVENTH && interval != IntervalClass::MINOR_SEVENTH
    })
}

/// Alterations of the table that lead nowhere in one of its two keys.
const SPENT: [(&str, &str, &str); 3] = [
    ("V9[b9]", "c", "the ninth of the scale is flat already"),
    ("IV7[b7]", "c", "the seventh of the scale is minor already"),
    ("VI7[#7]", "c", "the seventh of the scale is major already"),
];

#[test]
fn made_up_numerals_mean_what_music21_reads() {
    assert_eq!(source(TABLE), "music21 10.5.1 (PyPI, BSD-3-Clause)");
    let (mut compared, mut nameless) = (0, 0);
    let mut faults = Vec::new();
    for row in rows(TABLE).skip(1) {
        let figure = row[0];
        for (name, cell) in ["C", "c"].into_iter().zip(&row[1..]) {
            let key: Key = name.parse().expect("a key");
            let cell = Cell::read(cell);
            let refused = RomanText::read(figure, key.mode()).map_err(|error| error.expected);
            if refused == Err(RomanTextExpected::CommonNote) && has_nameless_seventh(&cell) {
                nameless += 1;
                continue;
            }
            let spent = SPENT
                .iter()
                .any(|known| (known.0, known.1) == (figure, name));
            match disagreement(figure, key, &cell) {
                None if spent => faults.push(format!("{figure} in {key} agrees after all")),
                Some(said) if !spent => faults.push(format!("{figure} in {key}: {said}")),
                Some(_) => {}
                None => compared += 1,
            }
        }
    }
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
    assert!(compared > 1_200, "only {compared} compared");
    assert!(nameless < 150, "{nameless} refused for their sevenths");
}

/// What stays different in the corpus: the figure, how often it comes, and why.
const EXCEPTIONS: [(&str, usize, &str); 6] = [
    (
        "var",
        5,
        "`m49var` marks a variant; music21 takes `var` for a chord",
    ),
    (
        "VIII",
        1,
        "no Roman numeral of a scale; music21 drops the last I",
    ),
    ("I4", 1, "no figure of a chord; music21 gives two notes"),
    (
        "bVII7[maj7]",
        1,
        "no bracket of the format; music21 gives D and C#",
    ),
    (
        "III6+",
        1,
        "an augmented chord; music21 drops a sign after the figures",
    ),
    (
        "I[#3]",
        1,
        "a third that is major already; music21 raises it again",
    ),
];

#[test]
#[ignore = "needs the table that .ci/oracle.sh writes"]
fn the_corpus_means_what_music21_reads() {
    let path = std::env::var("PLAGAL_ROMAN_TEXT").expect("named by .ci/oracle.sh");
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("`{path}`: {e}"));
    assert_eq!(source(&text), "music21 10.5.1 (PyPI, BSD-3-Clause)");
    let mut kinds: BTreeMap<&str, usize> = BTreeMap::new();
    let mut excused: BTreeMap<&str, usize> = BTreeMap::new();
    let mut faults = Vec::new();
    for row in rows(&text) {
        let [kind, place, key, figure, cell] = row[..] else {
            panic!("a broken row: {row:?}");
        };
        let key: Key = key.parse().unwrap_or_else(|error| panic!("{error}"));
        *kinds.entry(kind).or_default() += 1;
        match disagreement(figure, key, &Cell::read(cell)) {
            None => {}
            Some(_) if EXCEPTIONS.iter().any(|known| known.0 == figure) => {
                *excused.entry(figure).or_default() += 1;
            }
            Some(said) => faults.push(format!("{place}, {figure} in {key}: {said}")),
        }
    }
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
    assert_eq!((kinds["numeral"], kinds["pivot"]), (8112, 364));
    for (figure, times, cause) in EXCEPTIONS {
        assert_eq!(excused.get(figure), Some(&times), "{figure}: {cause}");
    }
    println!("compared {kinds:?} with music21, except {excused:?}");
}

//! Where two devices are found on the same chords, either one yields to the other or both
//! are right, and then the reason stands here.

use std::collections::{BTreeMap, BTreeSet, HashSet};

use plagal::devices::{Catalogue, Expansion, Occurrence, Shape};
use plagal::theory::{Mode, Numeral};

/// Pairs that are both right on the same chords.
const BOTH_RIGHT: [(&str, &str, &str); 14] = [
    (
        "applied-leading-tone",
        "ascending-passing-diminished",
        "a diminished seventh that passes upward is the leading-tone chord of where it goes",
    ),
    (
        "applied-leading-tone",
        "common-tone-diminished",
        "before a six-four it holds the tonic note and leads to the fifth in the bass",
    ),
    (
        "applied-leading-tone",
        "sharp-four-diminished",
        "before a six-four it leads to the fifth in the bass, with the tonic above it",
    ),
    (
        "augmented-sixth",
        "enharmonic-german-sixth",
        "the enharmonic German sixth is a German sixth before a major six-four",
    ),
    (
        "augmented-sixth",
        "flat-six-dominant-minor",
        "one sound under its name in figured bass and its name in jazz",
    ),
    (
        "augmented-sixth",
        "tritone-substitute-of-five",
        "one sound under its name in figured bass and its name in jazz",
    ),
    (
        "common-tone-diminished",
        "sharp-four-diminished",
        "sharp-four diminished before the tonic is the commonest common-tone diminished",
    ),
    (
        "diatonic-fifths-cycle",
        "mediant-turnaround",
        "iii-vi-ii-V is an arc of the circle of fifths",
    ),
    (
        "form-end-dominant",
        "half-cadence",
        "a form that turns back from V to I ends on a half cadence",
    ),
    (
        "leading-tone-chord",
        "rootless-dominant-ninth",
        "the leading-tone seventh is the dominant ninth less its root",
    ),
    (
        "mediant-turnaround",
        "two-five-chain",
        "the turnaround from the mediant is a chain of two ii-Vs",
    ),
    (
        "minor-four",
        "minor-four-added-sixth",
        "the added sixth is a colour of the minor subdominant",
    ),
    (
        "pivot-modulation",
        "relative-major-two-five",
        "iv is the pivot when the relative major that it leads to is confirmed",
    ),
    (
        "related-two-five-major-target",
        "two-five-of-four",
        "IV is one of the major targets",
    ),
];

/// Devices that say where chords stand or what is under them, and not what they do.
const OF_THE_PLACE: [&str; 2] = ["off-tonic-opening", "pedal-point"];

type Pairs = BTreeMap<(String, String), String>;

/// Notes every pair of devices that share their own chords.
fn note_pairs(found: &[Occurrence], line: &[&Numeral], pairs: &mut Pairs) {
    for (index, one) in found.iter().enumerate() {
        for other in &found[index + 1..] {
            if one.own == other.own {
                let pair = (one.device.to_string(), other.device.to_string());
                pairs.entry(pair).or_insert_with(|| {
                    let chords: Vec<String> = line.iter().map(ToString::to_string).collect();
                    chords.join(" ")
                });
            }
        }
    }
}

/// Every chord that a pattern of the mode names, one of each shape and bass.
fn vocabulary(catalogue: &Catalogue, mode: Mode) -> Vec<Numeral> {
    let mut known = HashSet::new();
    catalogue
        .devices()
        .iter()
        .flat_map(|device| device.expansions_in(mode))
        .flat_map(Expansion::chords)
        .filter(|wanted| {
            let numeral = &wanted.numeral;
            let quality = wanted.exact.then(|| numeral.quality());
            known.insert((Shape::acting(numeral), numeral.sounding_bass(), quality))
        })
        .map(|wanted| wanted.numeral.clone())
        .collect()
}

/// All pairs in any three chords of the vocabulary, in all spelled-out patterns and in
/// all examples.
fn pairs_on_the_same_chords(catalogue: &Catalogue) -> Pairs {
    let mut pairs = Pairs::new();
    let mut read = |line: &[&Numeral], mode| {
        note_pairs(&catalogue.find(line, mode), line, &mut pairs);
    };
    for mode in [Mode::Major, Mode::Minor] {
        let chords = vocabulary(catalogue, mode);
        for one in &chords {
            for two in &chords {
                for three in &chords {
                    read(&[one, two, three], mode);
                }
            }
        }
        for device in catalogue.devices() {
            for expansion in device.expansions_in(mode) {
                let line: Vec<&Numeral> = expansion.chords().map(|w| &w.numeral).collect();
                read(&line, mode);
            }
            let examples = device.examples.iter().chain(&device.counterexamples);
            for example in examples.filter(|example| example.mode == mode) {
                read(&example.line.numerals().collect::<Vec<_>>(), mode);
            }
        }
    }
    pairs
}

#[test]
fn two_devices_on_the_same_chords_have_a_winner_or_a_reason() {
    let catalogue = Catalogue::built_in();
    let mut listed = BTreeSet::new();
    for (one, other, _) in BOTH_RIGHT {
        listed.insert((one.to_owned(), other.to_owned()));
    }
    let pairs = pairs_on_the_same_chords(&catalogue);
    let of_the_place = |pair: &(String, String)| {
        OF_THE_PLACE.contains(&pair.0.as_str()) || OF_THE_PLACE.contains(&pair.1.as_str())
    };
    let open: Vec<String> = pairs
        .iter()
        .filter(|(pair, _)| !listed.contains(*pair) && !of_the_place(pair))
        .map(|((one, other), line)| format!("{one} and {other} in {line}"))
        .collect();
    assert!(open.is_empty(), "no winner:\n{}", open.join("\n"));
    let idle: Vec<&(String, String)> = listed
        .iter()
        .filter(|pair| !pairs.contains_key(*pair))
        .collect();
    assert!(idle.is_empty(), "never on the same chords: {idle:?}");
}

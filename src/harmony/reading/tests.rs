//! Symbols against numerals.

use super::*;
use crate::devices::Catalogue;
use crate::theory::{Chord, Line, Meter, Notation, Slot, TICKS_PER_BEAT};

fn key(text: &str) -> Key {
    text.parse().expect("a key")
}

fn read(key_text: &str, symbols: &str, catalogue: &Catalogue) -> Analysis {
    let symbols: Vec<Symbol> = symbols
        .split_whitespace()
        .map(|text| text.parse().expect("a symbol"))
        .collect();
    analyse(&symbols, key(key_text), catalogue)
}

fn best(key_text: &str, symbols: &str) -> String {
    let analysis = read(key_text, symbols, &Catalogue::built_in());
    let numerals: Vec<String> = analysis.numerals().map(ToString::to_string).collect();
    numerals.join(" ")
}

#[test]
fn symbols_are_read_by_where_they_go() {
    // Hutchinson, "Secondary dominants", "Tritone substitution"; Open Music Theory v1,
    // "Applied chords"; the passing diminished sevenths from memory (Nettles, Harmony 3).
    for (key, symbols, numerals) in [
        ("C", "C A7 Dm7 G7", "I V7/ii ii7 V7"),
        ("C", "C E7 Am D7 G7 C", "I V7/vi vi V7/V V7 I"),
        ("Eb", "Eb C7 Fm7 Bb7", "I V7/ii ii7 V7"),
        ("C", "Dm7 Db7 C", "ii7 bII7 I"),
        ("D", "Em7 Eb7 D", "ii7 bII7 I"),
        ("D", "Em7 D#7 D", "ii7 bII7 I"),
        ("C", "C C#o7 Dm7 D#o7 Em7", "I #io7 ii7 #iio7 iii7"),
        ("C", "Em7 Ebo7 Dm7 G7", "iii7 biiio7 ii7 V7"),
        ("C", "Em7 D#o7 Dm7 G7", "iii7 biiio7 ii7 V7"),
        ("C", "F F#o7 C/G A7 Dm7 G7", "IV #ivo7 I/5 V7/ii ii7 V7"),
        ("C", "C Fm6 C", "I ivadd6 I"),
        ("C", "C Fm7 Bb7 C", "I iv7 bVII7 I"),
        ("C", "C Bb7 Ebmaj7 Dm7 G7", "I V7/bIII bIIImaj7 ii7 V7"),
        ("C", "C Ab7 G7", "I bVI7 V7"),
        ("C", "C Gm7 C7 F", "I v7 V7/IV IV"),
        ("C", "Bø7 E7 Am7 D7 G7 C", "viiø7 V7/vi vi7 V7/V V7 I"),
        (
            "C",
            "F#ø7 B7 Em7 A7 Dm7 G7 C",
            "#ivø7 V7/iii iii7 V7/ii ii7 V7 I",
        ),
        ("C", "C Gb7 F G7", "I bV7 IV V7"),
        ("Am", "Am Bø7 E7 Am", "i iiø7 V7 i"),
        ("Am", "Am G F E", "i bVII bVI V"),
        (
            "Am",
            "Am Dm7 G7 Cmaj7 Fmaj7 Bø7 E7",
            "i iv7 V7/bIII bIIImaj7 bVImaj7 iiø7 V7",
        ),
    ] {
        assert_eq!(best(key, symbols), numerals, "{key}: {symbols}");
    }
}

#[test]
fn devices_are_found_in_symbols() {
    let catalogue = Catalogue::built_in();
    let analysis = read("G", "G6 E7 Am7 D7 G6 Cm6 G6", &catalogue);
    for id in ["dominant-of-two", "two-five-one", "minor-four"] {
        let found = |occurrence: &&Occurrence| occurrence.device.as_str() == id;
        assert!(analysis.devices.iter().any(|o| found(&o)), "{id}");
    }
}

#[test]
fn readings_are_weighed_and_add_up() {
    let analysis = read("C", "F F#o7 G7 C6/E Fm6 G7 C", &Catalogue::built_in());
    for readings in &analysis.readings {
        let total: f64 = readings.iter().map(|reading| reading.weight).sum();
        assert!((total - 1.0).abs() < 1e-9);
        assert!(
            readings
                .windows(2)
                .all(|pair| pair[0].weight >= pair[1].weight)
        );
    }
    let names = |at: usize| -> Vec<String> {
        let all = analysis.readings[at].iter();
        all.map(|reading| reading.numeral.to_string()).collect()
    };
    assert!(names(1).contains(&"#ivo7".to_owned()));
    assert!(names(1).contains(&"io7".to_owned()), "{:?}", names(1));
    assert!(names(3).contains(&"vi7".to_owned()), "{:?}", names(3));
    assert!(names(4).contains(&"iiø7".to_owned()), "{:?}", names(4));
}

/// Every way to spell out a device is written as symbols, in several keys, and read back.
#[test]
fn what_devices_are_made_of_is_read_back_from_symbols() {
    let catalogue = Catalogue::built_in();
    let mut wrong = std::collections::BTreeSet::new();
    for device in catalogue.devices() {
        for (mode, tonic) in device
            .modes
            .iter()
            .flat_map(|m| [(*m, "C"), (*m, "F#"), (*m, "Bb")])
        {
            let key = Key::new(tonic.parse().expect("a note"), mode).expect("a key");
            for expansion in device.expansions_in(mode) {
                let slots = expansion.chords().map(|wanted| Slot {
                    numeral: wanted.numeral.clone(),
                    length: 4 * TICKS_PER_BEAT,
                });
                let line = Line::new(Meter::FourFour, slots);
                let Ok(symbols) = line
                    .numerals()
                    .map(|numeral| Chord::new(numeral, key).map(|chord| chord.symbol()))
                    .collect::<Result<Vec<_>, _>>()
                else {
                    continue;
                };
                let analysis = analyse(&symbols, key, &catalogue);
                for (at, found) in analysis.numerals().enumerate() {
                    let sounding = ChordInContext::of(&line, at, mode);
                    if !sounding.judge(found).is_right() {
                        let truth = &sounding.truth;
                        wrong.insert(format!("{}: {line}: {truth} read as {found}", device.id));
                    }
                }
                if !analysis
                    .devices
                    .iter()
                    .any(|found| found.device == device.id)
                {
                    let whole: Vec<&Numeral> = line.numerals().collect();
                    let known = catalogue.find(&whole, mode);
                    if known.iter().any(|found| found.device == device.id) {
                        let text = line.written(Notation::Text);
                        wrong.insert(format!("{} not found in {text}", device.id));
                    }
                }
            }
        }
    }
    let wrong: Vec<String> = wrong.into_iter().collect();
    assert!(wrong.is_empty(), "{}\n{}", wrong.len(), wrong.join("\n"));
}

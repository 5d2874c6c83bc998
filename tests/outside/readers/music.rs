//! The notations of music.

use std::fmt::{Debug, Display};
use std::str::FromStr;
use std::sync::LazyLock;

use plagal::devices::{Catalogue, Pattern};
use plagal::theory::{
    BareSix, Chord, Degree, Key, Line, Meter, Mode, Notation, Numeral, Pitch, PitchClass,
    RomanText, Symbol,
};

use super::told;

const NOTATIONS: [Notation; 3] = [Notation::Text, Notation::Screen, Notation::Ascii];

fn key_of(chance: usize) -> Key {
    static KEYS: LazyLock<Vec<Key>> = LazyLock::new(|| Key::all().collect());
    KEYS[chance % KEYS.len()]
}

fn six_of(key: Key) -> BareSix {
    match key.mode() {
        Mode::Major => BareSix::AddedSixth,
        Mode::Minor => BareSix::FirstInversion,
    }
}

pub(super) fn numeral(text: &str, chance: usize) -> bool {
    let key = key_of(chance);
    match Numeral::read(text, six_of(key)) {
        Ok(numeral) => {
            reread(&numeral, text);
            chord(&numeral, key);
            true
        }
        Err(error) => {
            assert!(error.text.get(error.at.clone()).is_some(), "{text:?}");
            told(&error);
            if let Some(near) = &error.near {
                let is_read = near.parse::<Numeral>().is_ok();
                assert!(is_read, "{text:?} is not near {near}");
            }
            false
        }
    }
}

fn reread(numeral: &Numeral, text: &str) {
    for notation in NOTATIONS {
        let printed = numeral.written(notation);
        let again = printed.parse::<Numeral>();
        assert_eq!(again.as_ref(), Ok(numeral), "{text:?} printed as {printed}");
    }
}

fn chord(numeral: &Numeral, key: Key) {
    match Chord::new(numeral, key) {
        Ok(chord) => {
            let symbol = chord.symbol();
            for notation in NOTATIONS {
                let printed = symbol.written(notation);
                assert_eq!(printed.parse(), Ok(symbol), "{numeral} in {key}: {printed}");
            }
        }
        Err(error) => told(&error),
    }
}

pub(super) fn symbol(text: &str, _chance: usize) -> bool {
    match text.parse::<Symbol>() {
        Ok(symbol) => {
            for notation in NOTATIONS {
                let printed = symbol.written(notation);
                assert_eq!(printed.parse(), Ok(symbol), "{text:?} printed as {printed}");
            }
            true
        }
        Err(error) => {
            assert!(error.text.get(error.at.clone()).is_some(), "{text:?}");
            told(&error);
            false
        }
    }
}

pub(super) fn line(text: &str, chance: usize) -> bool {
    let meter = Meter::ALL[chance % Meter::ALL.len()];
    match Line::read(text, meter, six_of(key_of(chance / Meter::ALL.len()))) {
        Ok(line) => {
            for notation in NOTATIONS {
                let printed = format!("{} |", line.written(notation));
                let again = Line::read(&printed, meter, BareSix::AddedSixth);
                assert_eq!(again.as_ref(), Ok(&line), "{text:?} printed as {printed}");
            }
            true
        }
        Err(error) => {
            assert!(text.get(error.at.clone()).is_some(), "{text:?}");
            told(&error);
            false
        }
    }
}

pub(super) fn roman_text(text: &str, chance: usize) -> bool {
    let key = key_of(chance);
    match RomanText::read(text, key.mode()) {
        Ok(roman_text) => {
            reread(&roman_text.numeral, text);
            chord(&roman_text.numeral, key);
            let _ = roman_text.notes(key);
            true
        }
        Err(error) => {
            assert!(error.text.get(error.at.clone()).is_some(), "{text:?}");
            told(&error);
            false
        }
    }
}

/// Keys, notes, pitches, degrees and meters: what is printed as it is read.
pub(super) fn key(text: &str, _chance: usize) -> bool {
    let read = [
        alike::<Key>(text),
        alike::<PitchClass>(text),
        alike::<Pitch>(text),
        alike::<Degree>(text),
        alike::<Meter>(text),
    ];
    read.contains(&true)
}

fn alike<T>(text: &str) -> bool
where
    T: FromStr<Err: Display + Debug> + Display + Debug + PartialEq,
{
    match text.parse::<T>() {
        Ok(thing) => {
            let again = thing
                .to_string()
                .parse::<T>()
                .expect("it is printed to be read");
            assert_eq!(again, thing, "{text:?}");
            true
        }
        Err(error) => {
            told(&error);
            false
        }
    }
}

/// What finds a device: read, and all that it stands for spelled out.
pub(super) fn pattern(text: &str, _chance: usize) -> bool {
    match text.parse::<Pattern>() {
        Ok(pattern) => {
            let printed = pattern.to_string();
            assert_eq!(printed.parse().as_ref(), Ok(&pattern), "{text:?}");
            true
        }
        Err(error) => {
            assert!(text.get(error.offset..).is_some(), "{text:?}");
            told(&error);
            false
        }
    }
}

fn owned(texts: &[&str]) -> Vec<String> {
    texts.iter().map(|text| (*text).to_owned()).collect()
}

pub(super) fn words() -> Vec<String> {
    owned(&[
        "I",
        "bVII7",
        "viio7/V",
        "V7(b9)",
        "It6",
        "Ger65/V",
        "Cad64",
        "iv6",
        "#ivø7/5",
        "Iadd6/3",
        "V7/ii/IV",
        "IVmaj7[no3]",
        "subV7/IV",
        "ii/o65",
        "N6",
        "V7alt",
        "vi9[add11][b5]",
        "I/b7",
    ])
}

pub(super) fn symbols() -> Vec<String> {
    owned(&[
        "C",
        "Bb7",
        "F#m7b5",
        "Ebmaj9/G",
        "Dsus4",
        "Abdim7",
        "G7(b9)",
        "Caug",
        "Am(maj7)",
        "D♭Δ",
        "G13#11",
        "E7alt/B",
        "Cadd9[no3]",
        "Bø7",
    ])
}

pub(super) fn keys() -> Vec<String> {
    owned(&[
        "C", "Gm", "Eb major", "F# minor", "Abb4", "c", "b6", "#4", "3/4", "B♭", "C-1", "G##",
    ])
}

/// The lines that the devices give as examples, and a few of this test's own.
pub(super) fn lines() -> Vec<String> {
    let catalogue = Catalogue::built_in();
    let examples = catalogue
        .devices()
        .iter()
        .flat_map(|device| &device.examples);
    let mut lines: Vec<String> = examples.map(|example| example.line.to_string()).collect();
    lines.extend(owned(&[
        "I % | % |",
        "| I . . IV | V7 |",
        "",
        "|",
        "I V7 |",
    ]));
    lines
}

pub(super) fn patterns() -> Vec<String> {
    owned(&[
        "(IV or ii7) [iv] (I or iii7)",
        "start [I =bVII7 IV] end",
        "[V7/V V7] I",
        "[(I or i) (V/3 or V7)] (I or vi or IV)",
        "[iv/b6 V]",
    ])
}

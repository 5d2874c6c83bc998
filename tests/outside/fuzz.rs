//! Whatever is typed, reading ends in a value or in an error that names its place: never
//! in a panic. `PLAGAL_FUZZ` sets how many texts are tried (20,000 without it).

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use plagal::theory::{
    BareSix, Chord, Degree, Key, Line, Meter, Mode, Notation, Numeral, Pitch, PitchClass,
    RomanText, Symbol,
};

const NOTATIONS: [Notation; 3] = [Notation::Text, Notation::Screen, Notation::Ascii];

const ROMANS: [&str; 15] = [
    "I", "II", "III", "IV", "V", "VI", "VII", "i", "ii", "iii", "iv", "v", "vi", "vii", "subV",
];
const NAMED: [&str; 6] = ["It6", "Fr43", "Ger65", "N6", "Cad64", "Sw43"];
const ACCIDENTALS: [&str; 10] = ["", "", "", "", "b", "#", "♭", "♯", "𝄪", "𝄫"];
const LETTERS: [&str; 8] = ["A", "B", "C", "D", "E", "F", "G", "g"];
const SIGNS: [&str; 60] = [
    "7", "maj7", "M7", "Δ", "△7", "o7", "°7", "ø7", "/o7", "o", "ø", "+", "d7", "add6", "add9",
    "add11", "sus4", "sus2", "6", "64", "65", "43", "42", "6/5", "4/3", "2", "9", "11", "13", "b9",
    "#9", "#11", "b13", "b5", "#5", "alt", "5", "69", "m", "-", "min", "dim", "aug", "(", ")",
    "(b9)", "(maj7)", "[no3]", "[add6]", "[b5]", "[no1no5]", "[", "]", " minor", " major", "m7b5",
    "maj9", "54", "7sus4", "mmaj7",
];
const FOREIGN: [&str; 8] = ["\u{1b}[31m", "é", "\u{0}", "8", "/", "%", "|", "ı̇"];

fn one_of<'a>(random: &mut ChaCha8Rng, pieces: &[&'a str]) -> &'a str {
    pieces[random.random_range(0..pieces.len())]
}

/// A head with a few signs, as a numeral or a symbol begins.
fn head(random: &mut ChaCha8Rng) -> String {
    let mut text = match random.random_range(0..10) {
        0 => one_of(random, &NAMED).to_owned(),
        1..=3 => one_of(random, &LETTERS).to_owned() + one_of(random, &ACCIDENTALS),
        _ => one_of(random, &ACCIDENTALS).to_owned() + one_of(random, &ROMANS),
    };
    while random.random_ratio(2, 5) {
        text += one_of(random, &SIGNS);
    }
    text
}

/// What may be a chord, with a target or a bass.
fn word(random: &mut ChaCha8Rng) -> String {
    let mut text = head(random);
    while random.random_ratio(1, 4) {
        text += "/";
        text += &head(random);
    }
    if random.random_ratio(1, 5) {
        text += "/";
        text += one_of(random, &ACCIDENTALS);
        text += one_of(random, &["1", "2", "3", "4", "5", "6", "7", "8", "G", "B"]);
    }
    text
}

/// A chord or a line of them, now and then with foreign signs, in disorder, or very long.
fn text(random: &mut ChaCha8Rng) -> String {
    let mut text = word(random);
    while random.random_ratio(1, 4) {
        text += one_of(random, &[" ", " ", " | ", " % ", "", "\t"]);
        text += &word(random);
    }
    while random.random_ratio(1, 6) {
        text += one_of(random, &FOREIGN);
        text += one_of(random, &SIGNS);
    }
    if random.random_ratio(1, 10) {
        text.push(char::from_u32(random.random_range(0..0x11_0000)).unwrap_or('\u{fffd}'));
    }
    if random.random_ratio(1, 2_000) {
        text = text.repeat(random.random_range(2..200));
    }
    if random.random_ratio(1, 20_000) {
        text += &one_of(random, &ACCIDENTALS[4..]).repeat(40_000);
    }
    text
}

/// Counts what was read, so that a fuzz of nothing but refusals would be seen.
#[derive(Debug, Default)]
struct Read {
    numerals: u64,
    chords: u64,
    symbols: u64,
    keys: u64,
    lines: u64,
    roman_texts: u64,
    notes: u64,
}

fn numeral(text: &str, six: BareSix, key: Key, read: &mut Read) {
    match Numeral::read(text, six) {
        Ok(numeral) => {
            read.numerals += 1;
            reread(&numeral, text);
            chord(&numeral, key, read);
        }
        Err(error) => {
            assert!(error.text.get(error.at.clone()).is_some(), "{text:?}");
            assert!(!error.to_string().is_empty());
            if let Some(near) = &error.near {
                assert!(
                    near.parse::<Numeral>().is_ok(),
                    "{text:?} is not near {near}"
                );
            }
        }
    }
}

fn reread(numeral: &Numeral, text: &str) {
    for notation in NOTATIONS {
        let printed = numeral.written(notation);
        assert_eq!(
            printed.parse::<Numeral>().as_ref(),
            Ok(numeral),
            "{text:?} printed as {printed}"
        );
    }
}

fn chord(numeral: &Numeral, key: Key, read: &mut Read) {
    match Chord::new(numeral, key) {
        Ok(chord) => {
            read.chords += 1;
            let symbol = chord.symbol();
            for notation in NOTATIONS {
                let printed = symbol.written(notation);
                assert_eq!(printed.parse(), Ok(symbol), "{numeral} in {key}: {printed}");
            }
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}

fn symbol(text: &str, read: &mut Read) {
    match text.parse::<Symbol>() {
        Ok(symbol) => {
            read.symbols += 1;
            for notation in NOTATIONS {
                let printed = symbol.written(notation);
                assert_eq!(printed.parse(), Ok(symbol), "{text:?} printed as {printed}");
            }
        }
        Err(error) => {
            assert!(error.text.get(error.at.clone()).is_some(), "{text:?}");
            assert!(!error.to_string().is_empty());
        }
    }
}

fn line(text: &str, meter: Meter, six: BareSix, read: &mut Read) {
    match Line::read(text, meter, six) {
        Ok(line) => {
            read.lines += 1;
            for notation in NOTATIONS {
                let printed = format!("{} |", line.written(notation));
                let again = Line::read(&printed, meter, BareSix::AddedSixth);
                assert_eq!(again.as_ref(), Ok(&line), "{text:?} printed as {printed}");
            }
        }
        Err(error) => {
            assert!(text.get(error.at.clone()).is_some(), "{text:?}");
            assert!(!error.to_string().is_empty());
        }
    }
}

fn roman_text(text: &str, key: Key, read: &mut Read) {
    match RomanText::read(text, key.mode()) {
        Ok(roman_text) => {
            read.roman_texts += 1;
            reread(&roman_text.numeral, text);
            chord(&roman_text.numeral, key, read);
            let _ = roman_text.notes(key);
        }
        Err(error) => {
            assert!(error.text.get(error.at.clone()).is_some(), "{text:?}");
            assert!(!error.to_string().is_empty());
        }
    }
}

fn small_things(text: &str, read: &mut Read) {
    match text.parse::<Key>() {
        Ok(key) => {
            read.keys += 1;
            assert_eq!(key.to_string().parse(), Ok(key), "{text:?}");
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
    match text.parse::<PitchClass>() {
        Ok(note) => {
            read.notes += 1;
            assert_eq!(note.to_string().parse(), Ok(note), "{text:?}");
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
    if let Ok(pitch) = text.parse::<Pitch>() {
        assert_eq!(pitch.to_string().parse(), Ok(pitch), "{text:?}");
    }
    if let Ok(degree) = text.parse::<Degree>() {
        assert_eq!(degree.to_string().parse(), Ok(degree), "{text:?}");
    }
    if let Ok(meter) = text.parse::<Meter>() {
        assert_eq!(meter.to_string(), text);
    }
}

#[test]
fn no_text_breaks_a_reader() {
    let texts: u64 = std::env::var("PLAGAL_FUZZ").map_or(20_000, |count| {
        count.parse().expect("PLAGAL_FUZZ is a number")
    });
    let keys: Vec<Key> = Key::all().collect();
    let mut random = ChaCha8Rng::seed_from_u64(1);
    let mut read = Read::default();
    for _ in 0..texts {
        let text = text(&mut random);
        let key = keys[random.random_range(0..keys.len())];
        let meter = Meter::ALL[random.random_range(0..Meter::ALL.len())];
        let six = match key.mode() {
            Mode::Major => BareSix::AddedSixth,
            Mode::Minor => BareSix::FirstInversion,
        };
        numeral(&text, six, key, &mut read);
        symbol(&text, &mut read);
        line(&text, meter, six, &mut read);
        roman_text(&text, key, &mut read);
        small_things(&text, &mut read);
    }
    println!("{texts} texts: {read:?}");
    for (what, count) in [
        ("numerals", read.numerals),
        ("chords", read.chords),
        ("symbols", read.symbols),
        ("keys", read.keys),
        ("lines", read.lines),
        ("RomanText numerals", read.roman_texts),
        ("notes", read.notes),
    ] {
        assert!(
            count > texts / 200,
            "only {count} {what} among {texts} texts"
        );
    }
}

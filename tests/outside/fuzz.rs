//! Whatever is typed or stands in a file, reading ends in a value or in an error that names
//! its place: never in a panic. `PLAGAL_FUZZ` sets how many texts each reader is given (1,000
//! without it, and 20,000 of the notations), `PLAGAL_READER` names one reader alone. What
//! `tests/guided` does by coverage is done here by chance.

use std::time::{Duration, Instant};

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use crate::mutation::Pool;
use crate::readers::{READERS, Reader};

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

fn texts(without: u64) -> u64 {
    std::env::var("PLAGAL_FUZZ").map_or(without, |count| {
        count.parse().expect("PLAGAL_FUZZ is a number")
    })
}

/// The readers that are wanted.
fn readers() -> impl Iterator<Item = &'static Reader> {
    let named = std::env::var("PLAGAL_READER").ok();
    let is_wanted = move |reader: &&Reader| named.as_ref().is_none_or(|name| name == reader.name);
    READERS.iter().filter(is_wanted)
}

/// How a reader fared.
#[derive(Default)]
struct Fared {
    read: u64,
    longest: Duration,
    bytes: usize,
}

impl Fared {
    fn try_on(&mut self, reader: &Reader, text: &str, chance: usize) -> bool {
        let start = Instant::now();
        let is_read = (reader.read)(text, chance);
        let took = start.elapsed();
        if took > self.longest {
            (self.longest, self.bytes) = (took, text.len());
        }
        self.read += u64::from(is_read);
        is_read
    }

    /// Says how it fared; one text of `so_many` at least was read.
    fn tell(&self, name: &str, texts: u64, so_many: u64) {
        let Self {
            read,
            longest,
            bytes,
        } = self;
        println!(
            "{name}: {texts} texts, {read} read; longest {longest:?} on {bytes} bytes; {}",
            memory()
        );
        // A fuzz of nothing but refusals would be none.
        assert!(
            *read > texts / so_many,
            "only {read} of {texts} texts were read by {name}"
        );
    }
}

/// The most memory that the process has had so far, where Linux tells it.
fn memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM"));
    line.unwrap_or_default()
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn no_text_breaks_a_reader_of_a_notation() {
    let notations = ["numeral", "line", "symbol", "RomanText", "key"];
    let texts = texts(20_000);
    let mut random = ChaCha8Rng::seed_from_u64(1);
    for reader in readers().filter(|reader| notations.contains(&reader.name)) {
        let mut fared = Fared::default();
        for _ in 0..texts {
            let text = text(&mut random);
            fared.try_on(reader, &text, random.random_range(0..1_000));
        }
        fared.tell(reader.name, texts, 200);
    }
}

#[test]
fn no_changed_text_breaks_a_reader() {
    let texts = texts(1_000);
    let mut random = ChaCha8Rng::seed_from_u64(2);
    for reader in readers() {
        let mut fared = Fared::default();
        let samples = (reader.samples)();
        // A sample may be of a newer program, or right in few circumstances.
        let is_read = |sample: &&String| (0..100).any(|chance| (reader.read)(sample, chance));
        let read = samples.iter().filter(is_read).count();
        assert!(
            2 * read > samples.len(),
            "{read} samples of {}",
            reader.name
        );
        let mut pool = Pool::new(samples);
        for _ in 0..texts {
            let text = pool.change(&mut random);
            if fared.try_on(reader, &text, random.random_range(0..1_000)) {
                pool.take(text, &mut random);
            }
        }
        fared.tell(reader.name, texts, 1_000);
    }
}

//! Texts made of others by small changes, as hands, disks and programs make them.

use rand::RngExt;
use rand_chacha::ChaCha8Rng;

/// Texts that are read, at most so many.
const MOST: usize = 400;

/// Longer texts are cut.
const LONGEST: usize = 20_000;

/// What means something to one reader or another, or to none.
const PIECES: [&str; 56] = [
    "\"",
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    "null",
    "true",
    "-1",
    "0",
    "1e999",
    "-0.0",
    "18446744073709551616",
    "9007199254740993",
    "\\u0000",
    "\\ud800",
    "\\u202e",
    "//",
    "/*",
    "*/",
    "\u{feff}",
    "\u{202e}",
    "\u{1b}[31m",
    "\u{0}",
    "\n",
    "\t",
    "\r\n",
    " ",
    "é",
    "e\u{301}",
    "♭",
    "𝄪",
    "b",
    "#",
    "V7",
    "viio7",
    "/ii",
    "/5",
    "|",
    "%",
    ".",
    "(",
    ")",
    "or",
    "start",
    "end",
    "=",
    "o",
    "ø",
    "add6",
    "[no3]",
    "major",
    "minor",
    "4/4",
    "2",
];

/// Texts to be changed.
pub(crate) struct Pool(Vec<String>);

impl Pool {
    pub(crate) fn new(texts: Vec<String>) -> Self {
        Self(texts)
    }

    fn any(&self, random: &mut ChaCha8Rng) -> &str {
        &self.0[random.random_range(0..self.0.len())]
    }

    /// Takes in a text that was read, so that it is changed further.
    pub(crate) fn take(&mut self, text: String, random: &mut ChaCha8Rng) {
        if self.0.len() < MOST {
            self.0.push(text);
        } else {
            let at = random.random_range(0..MOST);
            self.0[at] = text;
        }
    }

    /// A text with one to five changes.
    pub(crate) fn change(&self, random: &mut ChaCha8Rng) -> String {
        let mut text: Vec<char> = self.any(random).chars().collect();
        for _ in 0..random.random_range(1..=5) {
            self.once(&mut text, random);
        }
        text.truncate(LONGEST);
        text.into_iter().collect()
    }

    fn once(&self, text: &mut Vec<char>, random: &mut ChaCha8Rng) {
        let from = random.random_range(0..=text.len());
        let most = if random.random_ratio(1, 4) {
            text.len()
        } else {
            8
        };
        let to = random.random_range(from..=(from + most).min(text.len()));
        let piece = || text[from..to].to_vec();
        match random.random_range(0..9) {
            0 => drop(text.drain(from..to)),
            1 => {
                let piece = piece();
                let at = random.random_range(0..=text.len());
                text.splice(at..at, piece);
            }
            2 => {
                let many = random.random_range(2..200);
                let piece = piece().repeat(many);
                text.splice(to..to, piece.into_iter().take(LONGEST));
            }
            3 => {
                let other: Vec<char> = self.any(random).chars().collect();
                let start = random.random_range(0..=other.len());
                text.splice(from..to, other[start..].iter().copied());
            }
            4 => {
                let character = char::from_u32(random.random_range(0..0x11_0000));
                text.insert(from, character.unwrap_or('\u{fffd}'));
            }
            5 => text.truncate(to),
            6 if from < text.len() => {
                let digit = char::from_digit(random.random_range(0..10), 10);
                text[from] = digit.expect("below ten");
            }
            _ => {
                let piece = PIECES[random.random_range(0..PIECES.len())].chars();
                text.splice(from..to, piece);
            }
        }
    }
}

//! A line: numerals with their places in bars.

use std::fmt;
use std::ops::Range;

use super::notation::Notation;
use super::numeral::{self, BareSix, Numeral, NumeralError};
use super::time::{Meter, TICKS_PER_BEAT, Ticks};

/// One chord of a line and how long it lasts.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Slot {
    /// The chord.
    pub numeral: Numeral,
    /// How long it lasts.
    pub length: Ticks,
}

/// Numerals in time. No two neighbours are alike: a chord that is repeated is one slot.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Line {
    meter: Meter,
    slots: Vec<Slot>,
}

/// The longest line that is read, in chords and in bytes: room for so many of the longest
/// numerals, with what stands between them.
const MOST_CHORDS: usize = 1024;
const MOST_BYTES: usize = MOST_CHORDS * (numeral::LONGEST + 3);
/// The most chords in one bar; every smaller number divides each meter's bar evenly.
const MOST_IN_BAR: usize = 8;

impl Line {
    /// Puts slots in a row, joining neighbours that are alike.
    #[must_use]
    pub fn new(meter: Meter, slots: impl IntoIterator<Item = Slot>) -> Self {
        let mut joined: Vec<Slot> = Vec::new();
        for slot in slots {
            match joined.last_mut() {
                Some(last) if last.numeral == slot.numeral => last.length += slot.length,
                Some(_) | None => joined.push(slot),
            }
        }
        Self {
            meter,
            slots: joined,
        }
    }

    /// The metre of all bars.
    #[must_use]
    pub fn meter(&self) -> Meter {
        self.meter
    }

    /// The chords with their lengths, in order.
    #[must_use]
    pub fn slots(&self) -> &[Slot] {
        &self.slots
    }

    /// The chords without their lengths, in order.
    pub fn numerals(&self) -> impl Iterator<Item = &Numeral> {
        self.slots.iter().map(|slot| &slot.numeral)
    }

    /// When a slot begins, in ticks from the beginning of the line.
    #[must_use]
    pub fn start(&self, slot: usize) -> Ticks {
        self.slots[..slot].iter().map(|slot| slot.length).sum()
    }

    /// The bar in which a slot begins, from 1.
    #[must_use]
    pub fn bar(&self, slot: usize) -> u32 {
        self.start(slot) / self.meter.bar() + 1
    }

    /// The whole length in ticks.
    #[must_use]
    pub fn length(&self) -> Ticks {
        self.start(self.slots.len())
    }

    /// How many bars the line has, a broken one counted whole.
    #[must_use]
    pub fn bars(&self) -> u32 {
        self.length().div_ceil(self.meter.bar())
    }

    /// The same line with another numeral in one slot.
    #[must_use]
    pub fn with(&self, slot: usize, numeral: Numeral) -> Self {
        let mut slots = self.slots.clone();
        slots[slot].numeral = numeral;
        Self {
            meter: self.meter,
            slots,
        }
    }

    /// The line in a notation: bars between `|`, `%` for a bar like the one before.
    #[must_use]
    pub fn written(&self, notation: Notation) -> String {
        let bar = self.meter.bar();
        let mut bars: Vec<Vec<(String, Ticks)>> = vec![Vec::new(); self.bars() as usize];
        let mut now = 0;
        for slot in &self.slots {
            let end = now + slot.length;
            while now < end {
                let until = end.min((now / bar + 1) * bar);
                bars[(now / bar) as usize].push((slot.numeral.written(notation), until - now));
                now = until;
            }
        }
        let mut texts: Vec<String> = Vec::new();
        let mut before: Option<&Vec<(String, Ticks)>> = None;
        for chords in &bars {
            let repeats = chords.len() == 1 && before.is_some_and(|bar| bar == chords);
            texts.push(if repeats {
                "%".to_owned()
            } else {
                bar_text(chords)
            });
            before = Some(chords);
        }
        // Without any bar line each chord would be read as a bar.
        let end = if bars.len() == 1 && bars[0].len() > 1 {
            " |"
        } else {
            ""
        };
        texts.join(" | ") + end
    }

    /// Reads `IVadd6 | ivadd6 | V7/ii V7/V | I %`. The chords of a bar share it equally;
    /// `%` is a bar like the one before; without any `|` each chord is a bar.
    ///
    /// # Errors
    /// At the first place that cannot be read, with its byte range in `text`.
    pub fn read(text: &str, meter: Meter, six: BareSix) -> Result<Self, LineError> {
        let refuse = |at: Range<usize>, fault| LineError { at, fault };
        if text.len() > MOST_BYTES {
            return Err(refuse(0..0, LineFault::TooLong));
        }
        let each_is_a_bar = !text.contains('|');
        let mut bars: Vec<Vec<Numeral>> = Vec::new();
        let mut chords = 0;
        let mut at = 0;
        for part in text.split('|') {
            let mut open: Vec<Numeral> = Vec::new();
            for (offset, word) in words(part) {
                let place = at + offset..at + offset + word.len();
                if word == "%" {
                    bars.extend((!open.is_empty()).then(|| std::mem::take(&mut open)));
                    let before = bars.last().cloned();
                    bars.push(before.ok_or(refuse(place.clone(), LineFault::NothingToRepeat))?);
                    chords += bars.last().map_or(0, Vec::len);
                } else {
                    let numeral = Numeral::read(word, six)
                        .map_err(|error| refuse(place.clone(), LineFault::Numeral(error)))?;
                    open.push(numeral);
                    chords += 1;
                }
                if open.len() > MOST_IN_BAR {
                    return Err(refuse(place, LineFault::FullBar));
                }
                if chords > MOST_CHORDS {
                    return Err(refuse(place, LineFault::TooLong));
                }
                if each_is_a_bar && !open.is_empty() {
                    bars.push(std::mem::take(&mut open));
                }
            }
            bars.extend((!open.is_empty()).then_some(open));
            at += part.len() + 1;
        }
        if bars.is_empty() {
            return Err(refuse(0..text.len(), LineFault::Empty));
        }
        let slots = bars.into_iter().flat_map(|bar| {
            let length = meter.bar() / bar.len() as Ticks;
            bar.into_iter().map(move |numeral| Slot { numeral, length })
        });
        Ok(Self::new(meter, slots))
    }
}

/// The chords of a bar, each repeated for its share.
fn bar_text(chords: &[(String, Ticks)]) -> String {
    let share = chords
        .iter()
        .map(|(_, length)| *length)
        .fold(0, greatest_common_divisor);
    let words: Vec<&str> = chords
        .iter()
        .flat_map(|(text, length)| {
            std::iter::repeat_n(text.as_str(), (length / share.max(1)) as usize)
        })
        .collect();
    words.join(" ")
}

fn greatest_common_divisor(one: Ticks, other: Ticks) -> Ticks {
    if other == 0 {
        one
    } else {
        greatest_common_divisor(other, one % other)
    }
}

/// The words of a text with their byte offsets.
fn words(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.split_whitespace()
        .map(move |word| (word.as_ptr() as usize - text.as_ptr() as usize, word))
}

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written(Notation::Text))
    }
}

/// Why a text is no line, and the bytes at fault.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineError {
    /// Bytes of the text that are at fault.
    pub at: Range<usize>,
    /// What is wrong there.
    pub fault: LineFault,
}

/// What is wrong with a line's text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineFault {
    /// There is no chord.
    Empty,
    /// There are more bars or chords than a line may hold.
    TooLong,
    /// A sign of repetition with nothing before it.
    NothingToRepeat,
    /// A bar holds more chords than it can be divided into.
    FullBar,
    /// A chord that is no numeral.
    Numeral(NumeralError),
}

impl fmt::Display for LineError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.fault {
            LineFault::Empty => write!(f, "the line is empty; expected numerals and bar lines"),
            LineFault::TooLong => write!(
                f,
                "the line is too long; expected at most {MOST_CHORDS} chords in {MOST_BYTES} bytes"
            ),
            LineFault::NothingToRepeat => write!(f, "`%` has no bar before it to repeat"),
            LineFault::FullBar => write!(f, "expected at most {MOST_IN_BAR} chords in a bar"),
            LineFault::Numeral(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for LineError {}

impl Slot {
    /// How many beats the chord lasts.
    #[must_use]
    pub fn beats(&self) -> f64 {
        f64::from(self.length) / f64::from(TICKS_PER_BEAT)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(text: &str) -> Line {
        Line::read(text, Meter::FourFour, BareSix::AddedSixth)
            .unwrap_or_else(|error| panic!("`{text}`: {error}"))
    }

    #[test]
    fn bars_share_their_beats_and_repeats_join() {
        let line = line("IVadd6 | ivadd6 | V7/ii V7/V | I %");
        let read: Vec<(String, u32, f64)> = (0..line.slots().len())
            .map(|slot| {
                let chord = &line.slots()[slot];
                (chord.numeral.to_string(), line.bar(slot), chord.beats())
            })
            .collect();
        let expected = [
            ("IVadd6", 1, 4.0),
            ("ivadd6", 2, 4.0),
            ("V7/ii", 3, 2.0),
            ("V7/V", 3, 2.0),
            ("I", 4, 8.0),
        ];
        assert_eq!(
            read,
            expected.map(|(text, bar, beats)| (text.to_owned(), bar, beats))
        );
        assert_eq!(line.bars(), 5);
    }

    #[test]
    fn lines_print_as_they_parse() {
        for text in [
            "I | IV | V7 | I",
            "ii7 V7 | I | % | vi7",
            "I I I V7 | I",
            "I vi7 | ii7 V7 | I | %",
            "bVImaj7 bVII7 I V7/ii/#1 | I",
        ] {
            assert_eq!(line(text).to_string(), text);
            assert_eq!(line(&line(text).written(Notation::Screen)), line(text));
        }
    }

    #[test]
    fn without_bar_lines_each_chord_is_a_bar() {
        assert_eq!(line("ii7 V7 I %").to_string(), "ii7 | V7 | I | %");
    }

    #[test]
    fn a_broken_line_names_its_place() {
        for (text, at) in [
            ("I | IIX | V", 4..7),
            ("% | I", 0..1),
            ("I I I I I I I I V |", 16..17),
        ] {
            let read = Line::read(text, Meter::FourFour, BareSix::AddedSixth);
            assert_eq!(read.map_err(|error| error.at), Err(at), "{text}");
        }
        let long = "I ".repeat(5_000_000);
        let read = Line::read(&long, Meter::FourFour, BareSix::AddedSixth);
        assert_eq!(read.map_err(|error| error.fault), Err(LineFault::TooLong));
    }
}

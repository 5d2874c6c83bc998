//! Spelled pitch: a position on the line of fifths, and an octave.

use std::fmt;
use std::str::FromStr;

use super::name_error::NameError;
use super::notation::Notation;

/// The number of chromatic steps in an octave.
pub const OCTAVE: i32 = 12;

/// A spelled pitch class: its place on the line of fifths, counted from C.
///
/// `… B♭ −2, F −1, C 0, G 1, D 2 …`; seven steps up the line raise a letter by a
/// chromatic semitone. G♯ (8) and A♭ (−4) are different classes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PitchClass(i16);

/// The seven letters in the order of the line of fifths, F first.
const LETTERS: [char; 7] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/// Chromatic steps above C of each letter, in alphabetical order from C.
const NATURALS: [i32; 7] = [0, 2, 4, 5, 7, 9, 11];

impl PitchClass {
    /// The pitch class C, at 0 on the line of fifths.
    pub const C: Self = Self(0);

    /// The class `fifths` steps up the line from C (negative: down).
    #[must_use]
    pub const fn from_fifths(fifths: i16) -> Self {
        Self(fifths)
    }

    /// Steps up the line of fifths from C.
    #[must_use]
    pub const fn fifths(self) -> i16 {
        self.0
    }

    /// The letter, `'A'` to `'G'`.
    #[must_use]
    pub fn letter(self) -> char {
        LETTERS[usize::from((self.0 + 1).rem_euclid(7).unsigned_abs())]
    }

    /// Sharps (positive) or flats (negative) on the letter.
    #[must_use]
    pub fn alteration(self) -> i16 {
        (self.0 + 1).div_euclid(7)
    }

    /// The place of the letter above C: C 0, D 1 … B 6.
    #[must_use]
    pub fn step(self) -> i32 {
        i32::from(self.0 * 4).rem_euclid(7)
    }

    /// Chromatic steps above C, 0 to 11. Enharmonic spellings share it.
    #[must_use]
    pub fn chromatic(self) -> i32 {
        (i32::from(self.0) * 7).rem_euclid(OCTAVE)
    }

    /// The class a spelled interval above this one.
    #[must_use]
    pub fn up(self, interval: IntervalClass) -> Self {
        Self(self.0 + interval.fifths())
    }

    /// The interval from `lower` up to this class.
    #[must_use]
    pub fn above(self, lower: Self) -> IntervalClass {
        IntervalClass::from_fifths(self.0 - lower.0)
    }

    /// The name in a notation, such as `B♭`.
    #[must_use]
    pub fn written(self, notation: Notation) -> String {
        format!(
            "{}{}",
            self.letter(),
            notation.accidentals(self.alteration())
        )
    }
}

/// Bytes of the longest note name that is read: a letter and three accidentals on the screen.
pub(crate) const LONGEST_NOTE: usize = 10;

/// Reads leading accidentals in any common writing; gives their sum and the rest. Sharps
/// end where flats begin: `C#b` is no note.
pub(crate) fn read_accidentals(text: &str) -> (i16, &str) {
    let mut sum: i16 = 0;
    let mut rest = text;
    while let Some(sign) = rest.chars().next() {
        let step = match sign {
            '#' | '♯' => 1,
            'b' | '♭' => -1,
            '𝄪' => 2,
            '𝄫' => -2,
            _ => break,
        };
        if i32::from(sum) * step < 0 {
            break;
        }
        // However long a text is, its signs do not wrap round.
        sum = (i32::from(sum) + step).clamp(-100, 100) as i16;
        rest = &rest[sign.len_utf8()..];
    }
    (sum, rest)
}

impl fmt::Display for PitchClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written(Notation::Text))
    }
}

impl FromStr for PitchClass {
    type Err = NameError;

    /// Reads `G`, `Bb`, `F#`, `e♭`; at most three accidentals.
    fn from_str(text: &str) -> Result<Self, NameError> {
        let refused = || NameError::new(text, "a note name", "a letter A to G with `b` or `#`");
        let letter = text.chars().next().ok_or_else(refused)?;
        let place = LETTERS
            .iter()
            .position(|name| *name == letter.to_ascii_uppercase())
            .ok_or_else(refused)?;
        let (alteration, rest) = read_accidentals(&text[letter.len_utf8()..]);
        if !rest.is_empty() || alteration.abs() > 3 {
            return Err(refused());
        }
        Ok(Self(place as i16 - 1 + 7 * alteration))
    }
}

/// A spelled interval within the octave, as steps along the line of fifths.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct IntervalClass(i16);

impl IntervalClass {
    /// A perfect unison.
    pub const UNISON: Self = Self(0);
    /// A minor second.
    pub const MINOR_SECOND: Self = Self(-5);
    /// A major second.
    pub const MAJOR_SECOND: Self = Self(2);
    /// An augmented second.
    pub const AUGMENTED_SECOND: Self = Self(9);
    /// A minor third.
    pub const MINOR_THIRD: Self = Self(-3);
    /// A major third.
    pub const MAJOR_THIRD: Self = Self(4);
    /// A perfect fourth.
    pub const PERFECT_FOURTH: Self = Self(-1);
    /// An augmented fourth.
    pub const AUGMENTED_FOURTH: Self = Self(6);
    /// A diminished fifth.
    pub const DIMINISHED_FIFTH: Self = Self(-6);
    /// A perfect fifth, one step on the line of fifths.
    pub const PERFECT_FIFTH: Self = Self(1);
    /// An augmented fifth.
    pub const AUGMENTED_FIFTH: Self = Self(8);
    /// A minor sixth.
    pub const MINOR_SIXTH: Self = Self(-4);
    /// A major sixth.
    pub const MAJOR_SIXTH: Self = Self(3);
    /// An augmented sixth.
    pub const AUGMENTED_SIXTH: Self = Self(10);
    /// A diminished seventh.
    pub const DIMINISHED_SEVENTH: Self = Self(-9);
    /// A minor seventh.
    pub const MINOR_SEVENTH: Self = Self(-2);
    /// A major seventh.
    pub const MAJOR_SEVENTH: Self = Self(5);

    /// So many perfect fifths up, less than 0 for down, octaves left out.
    #[must_use]
    pub const fn from_fifths(fifths: i16) -> Self {
        Self(fifths)
    }

    /// Steps along the line of fifths: perfect fifth 1, minor third −3.
    #[must_use]
    pub const fn fifths(self) -> i16 {
        self.0
    }

    /// Chromatic steps, 0 to 11.
    #[must_use]
    pub fn chromatic(self) -> i32 {
        PitchClass(self.0).chromatic()
    }

    /// Diatonic number less one: unison 0, second 1 … seventh 6.
    #[must_use]
    pub fn steps(self) -> i32 {
        PitchClass(self.0).step()
    }
}

/// A spelled pitch with its octave in scientific notation: C4 is middle C, MIDI 60.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pitch {
    /// The spelled pitch class.
    pub class: PitchClass,
    /// The octave in scientific notation: middle C begins octave 4.
    pub octave: i32,
}

impl Pitch {
    /// The pitch of this class in this octave, counted from C as spelled.
    #[must_use]
    pub const fn new(class: PitchClass, octave: i32) -> Self {
        Self { class, octave }
    }

    /// The MIDI note number: A4 is 69. B♯3 and C4 share 60.
    #[must_use]
    pub fn midi(self) -> i32 {
        let natural = NATURALS[self.class.step() as usize];
        (self.octave + 1) * OCTAVE + natural + i32::from(self.class.alteration())
    }

    /// The pitch of this class that sounds at or next above MIDI note `floor`.
    #[must_use]
    pub fn at_or_above(class: PitchClass, floor: i32) -> Self {
        let lowest = Self::new(class, -2);
        let octaves = (floor - lowest.midi() + OCTAVE - 1).div_euclid(OCTAVE);
        Self::new(class, -2 + octaves)
    }

    /// Frequency in hertz in twelve-tone equal temperament, where A4 = `a4` Hz
    /// (440 Hz by ISO 16).
    #[must_use]
    pub fn frequency(self, a4: f64) -> f64 {
        a4 * 2f64.powf(f64::from(self.midi() - 69) / f64::from(OCTAVE))
    }
}

impl fmt::Display for Pitch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.class, self.octave)
    }
}

impl FromStr for Pitch {
    type Err = NameError;

    /// Reads `C4`, `Bb3`, `F#-1`.
    fn from_str(text: &str) -> Result<Self, NameError> {
        let split = text
            .find(|c: char| c.is_ascii_digit() || c == '-')
            .unwrap_or(text.len());
        let octave: i32 = text[split..]
            .parse()
            .map_err(|_| NameError::new(text, "a note name", "a letter A to G with `b` or `#`"))?;
        if !(-1..=9).contains(&octave) {
            return Err(NameError::new(
                text,
                "a note name",
                "a letter A to G with `b` or `#`",
            ));
        }
        Ok(Self::new(text[..split].parse()?, octave))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn class(name: &str) -> PitchClass {
        name.parse().expect("a note name")
    }

    #[test]
    fn the_line_of_fifths_spells_every_letter() {
        // Handbook fact: the order of sharps is F C G D A E B.
        let line: Vec<String> = (-8..=12)
            .map(|fifths| PitchClass::from_fifths(fifths).to_string())
            .collect();
        assert_eq!(
            line.join(" "),
            "Fb Cb Gb Db Ab Eb Bb F C G D A E B F# C# G# D# A# E# B#"
        );
    }

    #[test]
    fn enharmonic_spellings_differ_but_sound_alike() {
        assert_ne!(class("G#"), class("Ab"));
        assert_eq!(class("G#").chromatic(), class("Ab").chromatic());
        assert_eq!(class("B#").chromatic(), 0);
    }

    #[test]
    fn signs_that_contradict_or_never_end_are_no_accidentals() {
        for text in [
            "C#b".to_owned(),
            "Cb♯".to_owned(),
            "C".to_owned() + &"#".repeat(70_000),
        ] {
            assert!(text.parse::<PitchClass>().is_err(), "{text}");
        }
    }

    #[test]
    fn accidentals_add_up_to_three() {
        for (text, fifths) in [
            ("C###", 21),
            ("C♯♯♯", 21),
            ("C𝄪#", 21),
            ("Cbbb", -21),
            ("C𝄫♭", -21),
            ("c𝄪", 14),
        ] {
            assert_eq!(text.parse(), Ok(PitchClass::from_fifths(fifths)), "{text}");
        }
        for text in ["C####", "Cbbbb", "C𝄪𝄪", "C𝄫𝄫", "C# ", "#", ""] {
            assert_eq!(
                text.parse::<PitchClass>(),
                Err(NameError::new(
                    text,
                    "a note name",
                    "a letter A to G with `b` or `#`"
                ))
            );
        }
    }

    #[test]
    fn letters_and_steps_follow_the_alphabet() {
        for (step, name) in ["C", "D", "E", "F", "G", "A", "B"].into_iter().enumerate() {
            for signs in ["", "b", "#", "bb", "##"] {
                let note = class(&format!("{name}{signs}"));
                assert_eq!(note.step(), step as i32, "{note}");
                assert_eq!(note.letter().to_string(), name);
            }
        }
    }

    #[test]
    fn octaves_run_from_minus_one_to_nine() {
        for (text, midi) in [("C-1", 0), ("G9", 127)] {
            assert_eq!(text.parse::<Pitch>().map(Pitch::midi), Ok(midi));
        }
        for text in ["C-2", "C10", "C", "4", "H4"] {
            assert!(text.parse::<Pitch>().is_err(), "{text}");
        }
    }

    #[test]
    fn octaves_follow_the_letter() {
        for (name, midi) in [("C4", 60), ("A4", 69), ("B#3", 60), ("Cb4", 59), ("E2", 40)] {
            assert_eq!(name.parse::<Pitch>().map(Pitch::midi), Ok(midi), "{name}");
        }
    }

    #[test]
    fn iso_16_tunes_a4_to_440_hertz() {
        let a4: Pitch = "A4".parse().expect("a pitch");
        assert!((a4.frequency(440.0) - 440.0).abs() < 1e-9);
        // Equal temperament: middle C = 261.6256 Hz (common table value).
        let c4: Pitch = "C4".parse().expect("a pitch");
        assert!((c4.frequency(440.0) - 261.6256).abs() < 1e-4);
    }

    #[test]
    fn pitches_are_placed_at_or_above_a_floor() {
        for floor in 21..100 {
            for name in ["C", "B#", "Cb", "F#", "Gb", "A"] {
                let midi = Pitch::at_or_above(class(name), floor).midi();
                assert!(
                    (floor..floor + OCTAVE).contains(&midi),
                    "{name} above {floor}: {midi}"
                );
            }
        }
    }
}

//! Typed answers: numerals, and the signs of textbooks that stand for a chord only in its
//! place.

use crate::harmony::{ChordInContext, Role};
use crate::theory::{AugmentedSixth, BareSix, Degree, Head, Mode, Numeral, NumeralError, Quality};

/// Reads a typed numeral as the name of a chord, in the reading that does it most good: a
/// bare six also as the other figure, where its bass is the one that sounds, and the
/// figures of the cadential six-four also over the dominant.
///
/// # Errors
/// If the text is no numeral.
pub(super) fn read(
    text: &str,
    sounding: &ChordInContext,
    six: BareSix,
) -> Result<Numeral, NumeralError> {
    if let Some(numeral) = in_its_place(text, sounding) {
        return Ok(numeral);
    }
    let numeral = Numeral::read(text, six)?;
    let over_the_dominant =
        matches!(text, "V64" | "V6/4") && sounding.role == Role::CadentialSixFour;
    let other = if over_the_dominant {
        Some(six_four(sounding.mode))
    } else {
        Numeral::read(text, six.other()).ok()
    };
    Ok(other
        .filter(|other| other.sounding_bass() == sounding.truth.sounding_bass())
        .filter(|other| sounding.judge(other) < sounding.judge(&numeral))
        .unwrap_or(numeral))
}

/// What a sign of textbooks stands for before the chord that follows here: Kostka and Payne
/// (from memory); Open Music Theory v2, "Common-tone chords".
fn in_its_place(text: &str, sounding: &ChordInContext) -> Option<Numeral> {
    let next = sounding.next().root();
    match text.to_lowercase().as_str() {
        "cad64" | "cad6/4" => Some(six_four(sounding.mode)),
        "cto7" | "ct°7" | "ctº7" | "ctdim7" => {
            Some(Numeral::roman(next, Quality::DIMINISHED_SEVENTH))
        }
        "ct+6" => Some(Numeral {
            head: Head::AugmentedSixth(AugmentedSixth::German),
            target: (next != Degree::TONIC).then(|| Box::new(Numeral::roman(next, Quality::MAJOR))),
            bass: None,
        }),
        _ => None,
    }
}

/// The tonic over its fifth.
fn six_four(mode: Mode) -> Numeral {
    let tonic = match mode {
        Mode::Major => Quality::MAJOR,
        Mode::Minor => Quality::MINOR,
    };
    Numeral {
        bass: Some(Degree::new(5, 0)),
        ..Numeral::roman(Degree::TONIC, tonic)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theory::{Line, Meter};

    /// The credit of a typed answer to one chord of a line.
    fn credit(mode: Mode, text: &str, slot: usize, typed: &str) -> f64 {
        let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
        let sounding = ChordInContext::of(&line, slot, mode);
        let numeral =
            read(typed, &sounding, BareSix::AddedSixth).unwrap_or_else(|error| panic!("{error}"));
        sounding.judge(&numeral).credit()
    }

    #[test]
    fn the_cadential_six_four_is_taken_in_the_writings_of_textbooks() {
        for typed in ["V6/4", "V64", "I6/4", "I64", "I/5", "Cad64", "cad6/4"] {
            assert_eq!(credit(Mode::Major, "IV I/5 V7 I", 1, typed), 1.0, "{typed}");
        }
        for typed in ["V6/4", "V64", "i64", "i/5", "Cad64"] {
            assert_eq!(credit(Mode::Minor, "iv i/5 V7 i", 1, typed), 1.0, "{typed}");
        }
        for typed in ["V/2", "V7/2", "V43", "V", "I/3"] {
            assert!(
                credit(Mode::Major, "IV I/5 V7 I", 1, typed) < 1.0,
                "{typed}"
            );
        }
        // Figures over V are no tonic where no dominant follows.
        assert!(credit(Mode::Major, "IV I/5 IV I", 1, "V64") < 1.0);
        assert_eq!(credit(Mode::Major, "I V/2 I/3", 1, "V64"), 1.0);
        assert!(credit(Mode::Major, "IV I V7 I", 1, "Cad64") < 1.0);
    }

    #[test]
    fn a_common_tone_chord_is_read_from_the_chord_that_follows() {
        for (text, slot, typed, given) in [
            ("I Io7 I", 1, "CTo7", 1.0),
            ("I Io7 I", 1, "CT°7", 1.0),
            ("IV #ivo7 I/5 V7", 1, "CTo7", 1.0),
            ("V7 vo7 V7", 1, "CTo7", 1.0),
            ("IV #ivo7 V7", 1, "CTo7", 0.5),
            ("I bVI7 I", 1, "CT+6", 1.0),
            ("I bVI7 I", 1, "Ger+6", 1.0),
            ("I bVI7 V", 1, "Ger+6", 1.0),
        ] {
            assert_eq!(
                credit(Mode::Major, text, slot, typed),
                given,
                "{text} {typed}"
            );
        }
    }
}

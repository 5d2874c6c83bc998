//! What the pupil is asked to do, in a sentence that does not tell the key.

use crate::theory::{Notation, PitchClass, Symbol};

/// What the pupil is asked to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Prompt {
    /// A sentence that is the same in every notation.
    Plain(String),
    /// The key is asked, and the first chord is named.
    HomeFrom(Symbol),
}

impl Prompt {
    /// The sentence.
    #[must_use]
    pub fn written(&self, notation: Notation) -> String {
        match self {
            Self::Plain(sentence) => sentence.clone(),
            Self::HomeFrom(symbol) => {
                let names = either_spelling(*symbol);
                let names: Vec<String> = names.iter().map(|name| name.written(notation)).collect();
                let first = names.join(" or ");
                format!("The first chord is {first}. Which key is home?")
            }
        }
    }
}

/// Steps on the line of fifths to the enharmonic twin.
const TWIN: i16 = 12;

/// The line of fifths from F to B: the natural notes.
const NATURAL: std::ops::RangeInclusive<i16> = -1..=5;

/// The chord by its natural root, or by that with a sharp and that with a flat: chords of
/// the same sound are spelled alike, whatever key they come from.
fn either_spelling(symbol: Symbol) -> Vec<Symbol> {
    let fifths = symbol.root.fifths();
    let plain = (fifths - NATURAL.start()).rem_euclid(TWIN) + NATURAL.start();
    let spelled = |root: i16| {
        let along = |class: PitchClass| PitchClass::from_fifths(class.fifths() + root - fifths);
        Symbol::new(along(symbol.root), symbol.quality, along(symbol.bass))
    };
    if NATURAL.contains(&plain) {
        vec![spelled(plain)]
    } else {
        vec![spelled(plain), spelled(plain - TWIN)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chord_is_spelled_by_its_sound_alone() {
        // vi of B major and v of D flat, IV of G flat and I of B, V of A sharp minor.
        for (written, spelled) in [
            ("G#m", "G#m or Abm"),
            ("Abm", "G#m or Abm"),
            ("Cb", "B"),
            ("B", "B"),
            ("E#7", "F7"),
            ("Bb/D", "A#/C## or Bb/D"),
            ("C/E", "C/E"),
        ] {
            let symbol: Symbol = written.parse().expect("a symbol");
            let names = either_spelling(symbol);
            let names: Vec<String> = names.iter().map(ToString::to_string).collect();
            assert_eq!(names.join(" or "), spelled, "{written}");
        }
    }
}

//! Chord symbols as players write them: no more signs than needed, whatever the chord's notes
//! are called in the key. The rules are common practice of lead sheets.

use super::key::Key;
use super::pitch::{IntervalClass, PitchClass};
use super::quality::{Quality, Seventh, Tensions};
use super::symbol::Symbol;

/// From G♭ to A♯ on the line of fifths: roots that need no respelling anywhere.
const PLAIN: std::ops::RangeInclusive<i16> = -6..=10;

/// An enharmonic spelling lies a whole turn away on the line of fifths.
const TURN: i16 = 12;

/// Diminished sevenths are not written on D♭ and G♭: two of their notes would have double
/// flats where C♯ and F♯ need none.
const NO_DIMINISHED: [i16; 2] = [-5, -6];

impl Symbol {
    /// The symbol that a player would write in a key: `E7` for F♭7 and `B7` for C♭7, though
    /// `Cbmaj7` stays where it is the IV of G♭; `G°7` for F𝄪°7, `C♯°7` for D♭°7, and a minor
    /// seventh chord over its third as the sixth chord on that bass, `F6` for Dm7/F.
    #[must_use]
    pub fn as_played(self, key: Key) -> Self {
        let chord = self.as_sixth_chord();
        let is_own = |note: PitchClass| key.holds(key.degree(note)) && note.alteration().abs() < 2;
        let mut root = if is_own(chord.root) {
            chord.root
        } else {
            plainly(chord.root)
        };
        if chord.quality == Quality::DIMINISHED_SEVENTH && NO_DIMINISHED.contains(&root.fifths()) {
            root = PitchClass::from_fifths(root.fifths() + TURN);
        }
        let bass = root.up(chord.bass.above(chord.root));
        let bass = if is_own(bass) || bass == root {
            bass
        } else {
            plainly(bass)
        };
        Self::new(root, chord.quality, bass)
    }

    /// A minor or half-diminished seventh chord over its third has the notes of the triad
    /// there with an added sixth, and is called after it.
    fn as_sixth_chord(self) -> Self {
        let third = self.root.up(IntervalClass::MINOR_THIRD);
        let is_over_third = self.bass == third
            && self.quality.seventh == Some(Seventh::Minor)
            && self.quality.tensions == Tensions::NONE;
        let triad = match self.quality {
            Quality::MINOR_SEVENTH => Quality::MAJOR,
            Quality::HALF_DIMINISHED => Quality::MINOR,
            _ => return self,
        };
        if !is_over_third {
            return self;
        }
        let quality = Quality {
            added_sixth: true,
            ..triad
        };
        Self::new(third, quality, third)
    }
}

/// The note by its plainest name.
fn plainly(note: PitchClass) -> PitchClass {
    let mut fifths = note.fifths();
    while fifths < *PLAIN.start() {
        fifths += TURN;
    }
    while fifths > *PLAIN.end() {
        fifths -= TURN;
    }
    PitchClass::from_fifths(fifths)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theory::{Chord, Notation};

    #[test]
    fn symbols_are_those_of_lead_sheets() {
        // Common practice; the first six are named by players who read our lines.
        for (numeral, key, played) in [
            ("bII7", "Eb", "E7"),
            ("bVI7", "Eb", "B7"),
            ("IVmaj7", "Gb", "Cbmaj7"),
            ("#ivo7", "C#", "Go7"),
            ("bVImaj7", "Db", "Amaj7"),
            ("bII", "Cb", "C"),
            ("#io7", "C", "C#o7"),
            ("biiio7", "Bb", "C#o7"),
            ("biiio7", "C", "Ebo7"),
            ("viio7", "F#", "E#o7"),
            ("ii7/4", "C", "F6"),
            ("iiø7/4", "Cm", "Fm6"),
            ("ii7/5", "C", "Dm7/G"),
            ("bII7/7", "Eb", "E7/D"),
            ("V7/7", "Db", "Ab7/C"),
            ("imaj7", "Cm", "Cm(maj7)"),
            ("i7", "Cm", "Cm7"),
        ] {
            let key: Key = key.parse().unwrap_or_else(|error| panic!("{error}"));
            let numeral = numeral.parse().unwrap_or_else(|error| panic!("{error}"));
            let chord = Chord::new(&numeral, key).unwrap_or_else(|error| panic!("{error}"));
            let symbol = chord.symbol().as_played(key);
            assert_eq!(symbol.written(Notation::Text), played, "{numeral} in {key}");
        }
    }

    #[test]
    fn a_symbol_sounds_as_the_chord_that_it_is_written_for() {
        for key in Key::all() {
            for numeral in [
                "bII7", "bVI7", "biiio7", "ii7/4", "#ivø7", "subV7/ii", "iv6", "V7/7",
            ] {
                let numeral = numeral.parse().unwrap_or_else(|error| panic!("{error}"));
                let Ok(chord) = Chord::new(&numeral, key) else {
                    continue;
                };
                let played = chord.symbol().as_played(key);
                let sound = |symbol: Symbol| {
                    let mut notes: Vec<i32> =
                        symbol.notes().iter().map(|note| note.chromatic()).collect();
                    notes.sort_unstable();
                    (notes, symbol.bass.chromatic())
                };
                assert_eq!(sound(played), sound(chord.symbol()), "{numeral} in {key}");
                assert!(
                    played.root.alteration().abs() < 2,
                    "{numeral} in {key}: {played}"
                );
                assert!(
                    played.bass.alteration().abs() < 2,
                    "{numeral} in {key}: {played}"
                );
            }
        }
    }
}

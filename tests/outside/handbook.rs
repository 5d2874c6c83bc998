//! Tables that stand in every handbook of theory. Where no book is named they are common
//! practice, written down from memory.
//!
//! Books: Hutchinson, *Music Theory for the 21st-Century Classroom* (MT21), and *Open Music
//! Theory*, versions 1 and 2 (OMT1, OMT2), all open textbooks.

use std::collections::BTreeSet;

use plagal::theory::{Chord, Degree, IntervalClass, Key, Mode, Numeral, PitchClass};

use crate::tables::{names, note};

fn notes(text: &str) -> Vec<PitchClass> {
    text.split(' ').map(note).collect()
}

fn chord(numeral: &str, key: &str) -> Chord {
    let numeral: Numeral = numeral.parse().unwrap_or_else(|error| panic!("{error}"));
    let key: Key = key.parse().unwrap_or_else(|error| panic!("{error}"));
    Chord::new(&numeral, key).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn intervals_are_spelled_and_sized_as_everywhere() {
    // Name, a lower and an upper note, diatonic number, semitones. Common practice.
    let table = [
        ("perfect unison", "C C", 1, 0),
        ("augmented unison", "C C#", 1, 1),
        ("minor second", "E F", 2, 1),
        ("major second", "C D", 2, 2),
        ("augmented second", "Ab B", 2, 3),
        ("diminished third", "F# Ab", 3, 2),
        ("minor third", "A C", 3, 3),
        ("major third", "C E", 3, 4),
        ("diminished fourth", "G# C", 4, 4),
        ("perfect fourth", "C F", 4, 5),
        ("augmented fourth", "F B", 4, 6),
        ("diminished fifth", "B F", 5, 6),
        ("perfect fifth", "C G", 5, 7),
        ("augmented fifth", "C G#", 5, 8),
        ("minor sixth", "E C", 6, 8),
        ("major sixth", "C A", 6, 9),
        ("augmented sixth", "Ab F#", 6, 10),
        ("diminished seventh", "G# F", 7, 9),
        ("minor seventh", "G F", 7, 10),
        ("major seventh", "C B", 7, 11),
    ];
    for (name, pair, number, semitones) in table {
        let pair = notes(pair);
        let interval = pair[1].above(pair[0]);
        assert_eq!(interval.steps() + 1, number, "{name}");
        assert_eq!(interval.chromatic(), semitones, "{name}");
        // An interval and its inversion make an octave.
        let inversion = pair[0].above(pair[1]);
        assert_eq!((interval.steps() + inversion.steps()) % 7, 0, "{name}");
        assert_eq!((semitones + inversion.chromatic()) % 12, 0, "{name}");
    }
    for (named, pair) in [
        (IntervalClass::MINOR_SECOND, "E F"),
        (IntervalClass::MAJOR_SECOND, "C D"),
        (IntervalClass::AUGMENTED_SECOND, "Ab B"),
        (IntervalClass::MINOR_THIRD, "A C"),
        (IntervalClass::MAJOR_THIRD, "C E"),
        (IntervalClass::PERFECT_FOURTH, "C F"),
        (IntervalClass::AUGMENTED_FOURTH, "F B"),
        (IntervalClass::DIMINISHED_FIFTH, "B F"),
        (IntervalClass::PERFECT_FIFTH, "C G"),
        (IntervalClass::AUGMENTED_FIFTH, "C G#"),
        (IntervalClass::MINOR_SIXTH, "E C"),
        (IntervalClass::MAJOR_SIXTH, "C A"),
        (IntervalClass::AUGMENTED_SIXTH, "Ab F#"),
        (IntervalClass::DIMINISHED_SEVENTH, "G# F"),
        (IntervalClass::MINOR_SEVENTH, "G F"),
        (IntervalClass::MAJOR_SEVENTH, "C B"),
    ] {
        assert_eq!(notes(pair)[1].above(notes(pair)[0]), named, "{pair}");
    }
}

#[test]
fn sharps_and_flats_enter_in_their_order() {
    // Common practice: Father Charles Goes Down And Ends Battle, and backwards.
    let sharps = ["F", "C", "G", "D", "A", "E", "B"];
    for key in Key::all() {
        let count = usize::from(key.signature().unsigned_abs());
        let (entered, sign): (Vec<&str>, &str) = if key.signature() >= 0 {
            (sharps.into_iter().take(count).collect(), "#")
        } else {
            (sharps.into_iter().rev().take(count).collect(), "b")
        };
        let expected: BTreeSet<String> = "CDEFGAB"
            .chars()
            .map(|letter| {
                let letter = letter.to_string();
                let altered = entered.contains(&letter.as_str());
                letter + if altered { sign } else { "" }
            })
            .collect();
        let scale: BTreeSet<String> = (1..=7)
            .map(|number| {
                let lowered = key.mode() == Mode::Minor && matches!(number, 3 | 6 | 7);
                let degree = Degree::new(number, -i16::from(lowered));
                assert!(key.holds(degree), "{degree} of {key}");
                key.note(degree).to_string()
            })
            .collect();
        assert_eq!(scale, expected, "{key}");
    }
}

#[test]
fn sevenths_stacked_on_each_scale_have_their_numerals() {
    // Common practice, for major and the three forms of minor, from memory. Degrees count
    // from major, so what books write III, VI, VII in minor has a flat here.
    for (key, scale, numerals) in [
        ("C", "C D E F G A B", "Imaj7 ii7 iii7 IVmaj7 V7 vi7 viiø7"),
        (
            "a",
            "A B C D E F G",
            "i7 iiø7 bIIImaj7 iv7 v7 bVImaj7 bVII7",
        ),
        (
            "a",
            "A B C D E F G#",
            "imaj7 iiø7 bIII+maj7 iv7 V7 bVImaj7 viio7",
        ),
        (
            "a",
            "A B C D E F# G#",
            "imaj7 ii7 bIII+maj7 IV7 V7 viø7 viiø7",
        ),
    ] {
        let scale = notes(scale);
        for (place, numeral) in numerals.split(' ').enumerate() {
            let stacked = [0, 2, 4, 6].map(|third| scale[(place + third) % 7]);
            let chord = chord(numeral, key);
            assert_eq!(chord.notes(), stacked, "{numeral} in {key}");
            assert_eq!(chord.bass(), stacked[0], "{numeral} in {key}");
        }
    }
}

#[test]
fn applied_dominants_have_two_names_and_one_sound() {
    // MT21 "Secondary Dominants" and "Secondary Diminished", OMT1 "Applied chords". In C major.
    for (applied, plain, spelled) in [
        ("V7/V", "II7", "D F# A C"),
        ("V7/ii", "VI7", "A C# E G"),
        ("V7/vi", "III7", "E G# B D"),
        ("V7/IV", "I7", "C E G Bb"),
        ("V7/iii", "VII7", "B D# F# A"),
        ("viio7/ii", "#io7", "C# E G Bb"),
        ("viio7/iii", "#iio7", "D# F# A C"),
        ("viio7/V", "#ivo7", "F# A C Eb"),
        ("viio7/vi", "#vo7", "G# B D F"),
    ] {
        for numeral in [applied, plain] {
            assert_eq!(chord(numeral, "C").notes(), notes(spelled), "{numeral}");
        }
    }
}

#[test]
fn chromatic_chords_are_spelled_as_the_books_spell_them() {
    // OMT1 "Altered subdominants" and "Modal mixture", MT21 "Neapolitan", OMT2
    // "Substitutions"; the spellings in C are from memory. Notes from the bass up.
    for (numeral, key, spelled) in [
        ("It6", "c", "Ab C F#"),
        ("Fr6", "c", "Ab C D F#"),
        ("Ger6", "c", "Ab C Eb F#"),
        // OMT1 "Altered subdominants" (Swiss sixth), MT21 21.5.4.
        ("Sw6", "C", "Ab C D# F#"),
        ("N6", "c", "F Ab Db"),
        ("subV7", "C", "Db F Ab Cb"),
        ("iv", "C", "F Ab C"),
        ("iiø7", "C", "D F Ab C"),
        ("bVI", "C", "Ab C Eb"),
        ("bVII7", "C", "Bb D F Ab"),
        ("bIIImaj7", "C", "Eb G Bb D"),
        ("#ivø7", "C", "F# A C E"),
    ] {
        let chord = chord(numeral, key);
        assert_eq!(chord.bass(), notes(spelled)[0], "{numeral}");
        assert_eq!(names(chord.notes()), names(notes(spelled)), "{numeral}");
    }
}

#[test]
fn one_set_of_keys_on_the_piano_has_several_names() {
    // Common practice; the first line also MT21 "Enharmonic modulation" and OMT2
    // "Common-tone chords".
    for alike in [
        "#ivo7 viio7/V Io7 bIIIo7 #iio7",
        "ivadd6 iiø7 iiø7/4",
        "Iadd6 vi7",
        "IVadd6 ii7",
        "#ivø7 viadd6",
        "viiø7 iiadd6",
        "bVI7 Ger6 subV7/V V7/bII",
        "bVII7 V7/bIII subV7/vi",
        "Fr6 II7b5",
        "N6 bII",
        "bII7 subV7",
    ] {
        let sounds: BTreeSet<Vec<i32>> = alike
            .split(' ')
            .map(|numeral| {
                let sound: BTreeSet<i32> = chord(numeral, "C")
                    .notes()
                    .into_iter()
                    .map(PitchClass::chromatic)
                    .collect();
                sound.into_iter().collect()
            })
            .collect();
        assert_eq!(sounds.len(), 1, "{alike}: {sounds:?}");
    }
}

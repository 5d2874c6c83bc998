//! Laws that hold of harmony whatever the notation: what transposing, naming and applying
//! a chord may and may not change. Common practice, checked on random numerals.

use std::collections::BTreeSet;

use proptest::prelude::*;

use plagal::theory::{
    AugmentedSixth, BareSix, Chord, Degree, Head, IntervalClass, Key, Line, Member, Meter, Mode,
    Notation, Numeral, Pitch, PitchClass, Quality, Symbol,
};

const NOTATIONS: [Notation; 3] = [Notation::Text, Notation::Screen, Notation::Ascii];

/// Heads as players write them.
fn head() -> impl Strategy<Value = String> {
    let roman = (
        prop::sample::select(vec!["", "", "", "b", "#"]),
        prop::sample::select(vec![
            "I", "II", "III", "IV", "V", "VI", "VII", "i", "ii", "iii", "iv", "v", "vi", "vii",
        ]),
        prop::sample::select(vec![
            "", "", "7", "maj7", "add6", "o7", "ø7", "o", "+", "sus4", "7sus4", "9", "7b9", "13",
            "7#11", "7b5", "add9", "maj9", "69", "7alt", "5", "sus2",
        ]),
    )
        .prop_map(|(accidental, roman, suffix)| format!("{accidental}{roman}{suffix}"));
    let named = prop::sample::select(vec!["subV7", "subV", "It6", "Fr6", "Ger6", "N6"])
        .prop_map(str::to_owned);
    prop_oneof![8 => roman, 1 => named]
}

fn target() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec![
        "ii", "iii", "iv", "IV", "V", "v", "vi", "bII", "bIII", "bVI", "bVII",
    ])
}

fn numeral() -> impl Strategy<Value = Numeral> {
    let bass = prop::sample::select(vec!["", "", "", "/1", "/3", "/5", "/b7", "/7", "/2", "/b6"]);
    (head(), prop::option::of(target()), bass).prop_map(|(head, target, bass)| {
        let target = target
            .map(|target| format!("/{target}"))
            .unwrap_or_default();
        format!("{head}{target}{bass}")
            .parse()
            .unwrap_or_else(|error| panic!("{error}"))
    })
}

fn key() -> impl Strategy<Value = Key> {
    prop::sample::select(Key::all().collect::<Vec<_>>())
}

fn keys_of_one_mode() -> impl Strategy<Value = (Key, Key)> {
    (key(), key()).prop_filter("one mode", |(one, other)| one.mode() == other.mode())
}

fn sound(notes: impl IntoIterator<Item = PitchClass>) -> BTreeSet<i32> {
    notes.into_iter().map(PitchClass::chromatic).collect()
}

/// Italian and French sixths lack or lower the fifth of the dominant they sound like.
fn is_augmented_sixth(numeral: &Numeral) -> bool {
    matches!(numeral.head, Head::AugmentedSixth(_))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(2_000) })]

    #[test]
    fn transposing_moves_every_note_by_the_interval_between_the_tonics(
        numeral in numeral(), (one, other) in keys_of_one_mode()
    ) {
        let (Ok(here), Ok(there)) = (Chord::new(&numeral, one), Chord::new(&numeral, other)) else {
            return Ok(());
        };
        let interval = other.tonic().above(one.tonic());
        let moved: Vec<PitchClass> = here.notes().iter().map(|note| note.up(interval)).collect();
        prop_assert_eq!(there.notes(), moved);
        prop_assert_eq!(there.root(), here.root().up(interval));
        prop_assert_eq!(there.bass(), here.bass().up(interval));
        prop_assert_eq!(there.symbol().quality, here.symbol().quality);
    }

    #[test]
    fn the_bass_sounds_and_is_counted_once(numeral in numeral(), key in key()) {
        let Ok(chord) = Chord::new(&numeral, key) else { return Ok(()) };
        let notes = chord.notes();
        let distinct: BTreeSet<PitchClass> = notes.iter().copied().collect();
        prop_assert_eq!(distinct.len(), notes.len(), "a note stands twice");
        prop_assert!(notes.contains(&chord.bass()));
        let own: Vec<PitchClass> = chord.tones().iter().map(|tone| tone.class).collect();
        if own.contains(&chord.bass()) {
            prop_assert_eq!(&notes, &own);
        } else {
            prop_assert_eq!((notes[0], &notes[1..]), (chord.bass(), &own[..]));
        }
        prop_assert_eq!(chord.member(Member::Root), Some(chord.root()));
        prop_assert_eq!(own[0], chord.root());
        if numeral.bass.is_none() && !matches!(numeral.head, Head::Neapolitan) {
            prop_assert_eq!(chord.bass(), chord.root());
        }
    }

    #[test]
    fn upper_case_means_a_major_third_and_lower_case_a_minor_one(
        head in head(), key in key()
    ) {
        let numeral: Numeral = head.parse().map_err(|e| TestCaseError::fail(format!("{e}")))?;
        let Head::Roman { quality, .. } = numeral.head else { return Ok(()) };
        let Ok(chord) = Chord::new(&numeral, key) else { return Ok(()) };
        let third = chord.member(Member::Third).map(|third| third.above(chord.root()));
        for notation in NOTATIONS {
            let text = numeral.written(notation);
            let roman = text.trim_start_matches(['b', '#', '♭', '♯']);
            prop_assert_eq!(
                roman.starts_with(['i', 'v']),
                third == Some(IntervalClass::MINOR_THIRD),
                "{} of {:?}", text, quality
            );
        }
    }

    #[test]
    fn an_applied_chord_is_the_same_chord_in_the_key_of_its_target(
        head in head(), target in target(), key in key()
    ) {
        let applied: Numeral = format!("{head}/{target}").parse().expect("a numeral");
        let within: Numeral = head.parse().expect("a numeral");
        let local: Numeral = target.parse().expect("a numeral");
        let mode = if local.quality() == Quality::MINOR { Mode::Minor } else { Mode::Major };
        let Some(local) = Key::new(key.note(local.root()), mode) else { return Ok(()) };
        let (Ok(outer), Ok(inner)) = (Chord::new(&applied, key), Chord::new(&within, local)) else {
            return Ok(());
        };
        prop_assert_eq!(outer.tones(), inner.tones());
        prop_assert_eq!(outer.bass(), inner.bass());
    }

    #[test]
    fn a_symbol_says_what_sounds_and_reads_as_it_prints(numeral in numeral(), key in key()) {
        let Ok(chord) = Chord::new(&numeral, key) else { return Ok(()) };
        let symbol = chord.symbol();
        for notation in NOTATIONS {
            prop_assert_eq!(symbol.written(notation).parse::<Symbol>(), Ok(symbol));
        }
        let said = sound(symbol.notes().into_iter().chain([symbol.bass]));
        let sounding = sound(chord.notes());
        let is_italian = matches!(numeral.head, Head::AugmentedSixth(AugmentedSixth::Italian));
        if is_italian {
            // No symbol leaves a fifth out; `Ab7` is what a player is given.
            prop_assert!(sounding.is_subset(&said));
        } else {
            prop_assert_eq!(said, sounding, "{} for {}", symbol, numeral);
        }
        if !is_augmented_sixth(&numeral) {
            let said: BTreeSet<PitchClass> = symbol.notes().into_iter().collect();
            let own: BTreeSet<PitchClass> = chord.tones().iter().map(|tone| tone.class).collect();
            prop_assert_eq!(said, own, "spelling of {} for {}", symbol, numeral);
        }
    }

    #[test]
    fn degrees_and_notes_of_a_key_are_each_other(
        key in key(), number in 1u8..=7, alteration in -2i16..=2
    ) {
        let degree = Degree::new(number, alteration);
        prop_assert_eq!(key.degree(key.note(degree)), degree);
        // A degree of the major scale is a letter: its number counts from the tonic's.
        let steps = key.note(degree).step() - key.tonic().step();
        prop_assert_eq!(steps.rem_euclid(7) + 1, i32::from(number));
    }

    #[test]
    fn lines_keep_their_time_and_read_as_they_print(
        bars in prop::collection::vec(prop::collection::vec(numeral(), 1..=8), 1..12),
        meter in prop::sample::select(Meter::ALL.to_vec()),
    ) {
        let text = bars
            .iter()
            .map(|bar| bar.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))
            .collect::<Vec<_>>()
            .join(" | ");
        let text = format!("| {text} |");
        let line = Line::read(&text, meter, BareSix::AddedSixth)
            .map_err(|error| TestCaseError::fail(format!("{text}: {error}")))?;
        prop_assert_eq!(line.length(), bars.len() as u32 * meter.bar());
        prop_assert_eq!(line.bars() as usize, bars.len());
        for pair in line.slots().windows(2) {
            prop_assert_ne!(&pair[0].numeral, &pair[1].numeral, "neighbours are joined");
        }
        for notation in NOTATIONS {
            let printed = line.written(notation);
            let again = Line::read(&printed, meter, BareSix::AddedSixth);
            prop_assert_eq!(again.as_ref(), Ok(&line), "{}", printed);
        }
    }

    #[test]
    fn an_octave_doubles_the_frequency(fifths in -15i16..=19, octave in -1..=8) {
        let class = PitchClass::from_fifths(fifths);
        let low = Pitch::new(class, octave);
        let high = Pitch::new(class, octave + 1);
        prop_assert_eq!(high.midi() - low.midi(), 12);
        prop_assert!((high.frequency(440.0) / low.frequency(440.0) - 2.0).abs() < 1e-12);
        prop_assert_eq!(low.to_string().parse(), Ok(low));
    }
}

//! Chords that nobody writes: every quality that can be said must still be voiced.

use plagal::arranging::{Setting, faults};
use plagal::theory::{
    Degree, Fifth, Key, Line, Meter, Numeral, Quality, Seventh, Slot, TICKS_PER_BEAT, Tension,
    Tensions, Third,
};
use proptest::prelude::*;

fn any_quality() -> impl Strategy<Value = Quality> {
    let third = prop::sample::select(vec![
        Third::Major,
        Third::Minor,
        Third::Fourth,
        Third::Second,
        Third::Omitted,
    ]);
    let fifth = prop::sample::select(vec![Fifth::Perfect, Fifth::Diminished, Fifth::Augmented]);
    let seventh = prop::sample::select(vec![
        None,
        Some(Seventh::Major),
        Some(Seventh::Minor),
        Some(Seventh::Diminished),
    ]);
    let tensions = prop::sample::subsequence(Tension::ALL.to_vec(), 0..=Tension::ALL.len());
    (third, fifth, any::<bool>(), seventh, tensions).prop_map(
        |(third, fifth, added_sixth, seventh, tensions)| Quality {
            third,
            fifth,
            added_sixth,
            seventh,
            tensions: tensions.into_iter().fold(Tensions::NONE, Tensions::with),
        },
    )
}

fn any_numeral() -> impl Strategy<Value = Numeral> {
    let degree = || (1u8..=7, -1i16..=1).prop_map(|(number, sign)| Degree::new(number, sign));
    (degree(), any_quality(), prop::option::of(degree())).prop_map(|(root, quality, bass)| {
        Numeral {
            bass,
            ..Numeral::roman(root, quality)
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn every_chord_that_can_be_said_is_voiced(
        numerals in prop::collection::vec(any_numeral(), 0..5),
        variation in any::<u64>(),
    ) {
        let slots = numerals.into_iter().map(|numeral| Slot { numeral, length: TICKS_PER_BEAT });
        let line = Line::new(Meter::ThreeFour, slots);
        for key in [Key::C_MAJOR, "Ab minor".parse().expect("a key")] {
            // Some are too remote to be spelled.
            let Ok(setting) = Setting::new(&line, key, variation) else { continue };
            prop_assert_eq!(setting.voicings.len(), line.slots().len());
            prop_assert_eq!(faults(&setting).range_faults, 0);
            for (chord, voicing) in setting.chords.iter().zip(&setting.voicings) {
                let sounds = |class: i32| {
                    voicing.pitches().any(|pitch| pitch.midi().rem_euclid(12) == class)
                };
                prop_assert!(sounds(chord.root().chromatic()), "{}: {:?}", chord.numeral(), voicing);
                prop_assert!(!voicing.upper.is_empty());
            }
        }
    }
}

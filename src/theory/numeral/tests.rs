//! Numerals in every writing, and as they print.

use proptest::prelude::*;

use super::*;
use crate::theory::quality::{Fifth, Seventh, Third};

fn read(text: &str) -> Numeral {
    text.parse().unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn forgiving_input_means_one_numeral() {
    // Common practice: the writings that books and players use for the same chord.
    for (written, plain) in [
        ("V/ii", "V/ii"),
        ("V7/ii", "V7/ii"),
        ("VI7", "VI7"),
        ("#iv°7", "#ivo7"),
        ("#ivo7", "#ivo7"),
        ("#ivdim7", "#ivo7"),
        ("♯iv°7", "#ivo7"),
        ("ii/o7", "iiø7"),
        ("iim7b5", "iiø7"),
        ("iiø", "iiø7"),
        ("ii7b5", "iiø7"),
        ("IVm", "iv"),
        ("iv6", "ivadd6"),
        ("Imaj7", "Imaj7"),
        ("IΔ", "Imaj7"),
        ("IM7", "Imaj7"),
        ("bVII7", "bVII7"),
        ("♭VII7", "bVII7"),
        ("I/5", "I/5"),
        ("I64", "I/5"),
        ("V65", "V7/7"),
        ("V42", "V7/4"),
        ("V43", "V7/2"),
        ("V65/ii", "V7/ii/#1"),
        ("V7/ii65", "V7/ii7"),
        ("V42b9", "V7b9/4"),
        ("Ger65", "Ger6"),
        ("Fr43", "Fr6"),
        ("It", "It6"),
        ("It+6", "It6"),
        ("Fr+6", "Fr6"),
        ("Ger+6", "Ger6"),
        ("Ger+6/V", "Ger6/V"),
        ("N", "N6"),
        ("subV/V", "subV7/V"),
        ("V7/V/ii", "V7/V/ii"),
        ("V7sus", "V7sus4"),
        ("I69", "Iadd6add9"),
        ("i(maj7)", "imaj7"),
        ("V7(b9)", "V7b9"),
        ("V+", "V+"),
        ("viio7/V", "viio7/V"),
    ] {
        assert_eq!(read(written).to_string(), plain, "{written}");
    }
}

#[test]
fn a_bare_six_is_read_as_the_setting_says() {
    let figured = Numeral::read("I6", BareSix::FirstInversion).map(|n| n.to_string());
    assert_eq!(figured, Ok("I/3".to_owned()));
    assert_eq!(read("I6").to_string(), "Iadd6");
}

#[test]
fn unreadable_numerals_name_the_place_and_guess() {
    for (text, at, near) in [
        ("IIX", 2..3, Some("II")),
        ("", 0..0, None),
        ("V7/", 3..3, Some("V7")),
        ("V7/x", 3..4, Some("V7")),
        ("I/5/5", 3..5, Some("I/5")),
        ("xV7", 0..3, Some("V7")),
        ("V77", 2..3, Some("V7")),
        ("subVm", 4..5, Some("subV7")),
    ] {
        let error = text.parse::<Numeral>().expect_err(text);
        assert_eq!((error.at, error.near.as_deref()), (at, near), "{text}");
    }
    let deep = "V/".repeat(20) + "V";
    assert!(
        deep.parse::<Numeral>()
            .is_err_and(|e| e.expected == Expected::FewerTargets)
    );
}

#[test]
fn a_chord_symbol_is_called_one_and_not_guessed_at() {
    for symbol in ["A7", "F", "FM7", "Bbmaj7", "C/G", "D#o7", "Gm7b5"] {
        let error = symbol.parse::<Numeral>().expect_err(symbol);
        assert_eq!((error.near.as_ref(), &error.at), (None, &(0..symbol.len())));
        assert_eq!(
            error.to_string(),
            format!(
                "`{symbol}` is a chord symbol; expected a numeral counted from the tonic, \
                 such as `iv` or `V7/ii`"
            )
        );
    }
    for neither in ["H7", "xV7", "Fx", "c7"] {
        let error = neither.parse::<Numeral>().expect_err(neither);
        assert_ne!(error.expected, Expected::NoSymbol, "{neither}");
    }
}

#[test]
fn applied_roots_are_counted_in_the_home_key() {
    for (text, root) in [
        ("V7/ii", "6"),
        ("V7/V", "2"),
        ("V7/vi", "3"),
        ("V7/IV", "1"),
        ("V7/iii", "7"),
        ("V7/V/ii", "3"),
        ("subV7", "b2"),
        ("subV7/V", "b6"),
        ("viio7/V", "#4"),
        ("#io7", "#1"),
        ("N6", "b2"),
        ("Ger6", "b6"),
        ("V7/bIII", "b7"),
    ] {
        assert_eq!(read(text).root().to_string(), root, "{text}");
    }
    assert_eq!(read("N6").sounding_bass().to_string(), "4");
}

fn any_quality() -> impl Strategy<Value = Quality> {
    let third = prop::sample::select(vec![Third::Major, Third::Minor, Third::Fourth]);
    let fifth = prop::sample::select(vec![Fifth::Perfect, Fifth::Diminished, Fifth::Augmented]);
    let seventh = prop::sample::select(vec![None, Some(Seventh::Major), Some(Seventh::Minor)]);
    (third, fifth, any::<bool>(), seventh).prop_map(|(third, fifth, added_sixth, seventh)| {
        Quality {
            third,
            fifth,
            added_sixth,
            seventh,
            ..Quality::MAJOR
        }
    })
}

fn any_head() -> impl Strategy<Value = Head> {
    let roman =
        (1u8..=7, -1i16..=1, any_quality()).prop_map(|(number, alteration, quality)| Head::Roman {
            root: Degree::new(number, alteration),
            quality,
        });
    prop_oneof![
        8 => roman,
        1 => Just(Head::Substitute { quality: Quality::DOMINANT_SEVENTH }),
        1 => Just(Head::AugmentedSixth(AugmentedSixth::German)),
        1 => Just(Head::AugmentedSixth(AugmentedSixth::Swiss)),
        1 => Just(Head::Neapolitan),
    ]
}

fn any_numeral() -> impl Strategy<Value = Numeral> {
    let bass = prop::option::of((1u8..=7, -1i16..=1).prop_map(|(n, a)| Degree::new(n, a)));
    (prop::collection::vec(any_head(), 1..4), bass).prop_map(|(heads, bass)| {
        let mut heads = heads.into_iter().rev();
        let last = heads.next().expect("at least one head");
        let mut numeral = Numeral {
            head: last,
            target: None,
            bass: None,
        };
        for head in heads {
            numeral = Numeral {
                head,
                target: Some(Box::new(numeral)),
                bass: None,
            };
        }
        Numeral { bass, ..numeral }
    })
}

proptest! {
    #[test]
    fn numerals_parse_as_they_print(numeral in any_numeral()) {
        for notation in [Notation::Text, Notation::Screen, Notation::Ascii] {
            let text = numeral.written(notation);
            prop_assert_eq!(text.parse::<Numeral>(), Ok(numeral.clone()), "{}", text);
        }
    }

    #[test]
    fn no_text_breaks_the_reader(text in "[IViv7bo#ø/+°♭maj6dsu ()5-9]{0,12}|.{0,40}") {
        if let Err(error) = text.parse::<Numeral>() {
            prop_assert!(error.text.get(error.at.clone()).is_some());
            prop_assert!(!error.to_string().is_empty());
        }
    }
}

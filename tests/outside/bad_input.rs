//! Input that is far too long, nested too deep or without sense: it is refused with its place
//! and a short message, and the longest that can be meant is read and printed alike.

use plagal::devices::{Catalogue, DeviceId};
use plagal::harmony::{Phrasing, Refusal, Request, progression};
use plagal::theory::{
    BareSix, Chord, DEEPEST_TARGET, Expected, Key, Line, LineFault, Meter, Notation, Numeral,
    PitchClass, RomanText, Symbol,
};

const NOTATIONS: [Notation; 3] = [Notation::Text, Notation::Screen, Notation::Ascii];
const TEN_MEGABYTES: usize = 10 * 1024 * 1024;
/// No message is longer, however long the text was.
const SHORT: usize = 400;

/// Every sign a chord can carry at once.
const LOADED: &str = "+add6maj7b9add9#9add11#11b13add13";

fn read_line(text: &str) -> Result<Line, (usize, LineFault)> {
    Line::read(text, Meter::FourFour, BareSix::AddedSixth)
        .map_err(|error| (error.at.start, error.fault))
}

#[test]
fn ten_megabytes_are_no_line_no_numeral_and_no_symbol() {
    for piece in ["I ", "I | ", "|", "%", "V/", "b", "♭", " ", "é"] {
        let text = piece.repeat(TEN_MEGABYTES / piece.len());
        assert_eq!(read_line(&text), Err((0, LineFault::TooLong)), "{piece:?}");
        let error = text.parse::<Numeral>().expect_err(piece);
        assert_eq!(error.expected, Expected::Shorter, "{piece:?}");
        assert!(error.to_string().len() < SHORT, "{piece:?}");
        let error = text.parse::<Symbol>().expect_err(piece);
        assert!(error.to_string().len() < SHORT, "{piece:?}");
        let error = text.parse::<Key>().expect_err(piece);
        assert!(error.to_string().len() < SHORT, "{piece:?}");
        let error = text.parse::<PitchClass>().expect_err(piece);
        assert!(error.to_string().len() < SHORT, "{piece:?}");
        let error = RomanText::read(&text, Key::C_MAJOR.mode()).expect_err(piece);
        assert!(error.to_string().len() < SHORT, "{piece:?}");
    }
}

#[test]
fn one_long_word_in_a_line_is_refused_where_it_stands() {
    let text = format!("I | {} | V7", "V/".repeat(5_000));
    let Err((at, LineFault::Numeral(error))) = read_line(&text) else {
        panic!("the word was read");
    };
    assert_eq!(at, 4);
    assert!(error.to_string().len() < SHORT, "{error}");
}

#[test]
fn targets_nest_as_deep_as_is_said_and_no_deeper() {
    let nested = |targets: usize| format!("V7{}", "/V".repeat(targets)).parse::<Numeral>();
    let deepest = nested(DEEPEST_TARGET).expect("the deepest is read");
    assert_eq!(deepest.to_string().parse(), Ok(deepest));
    for targets in DEEPEST_TARGET + 1..60 {
        let error = nested(targets).expect_err("too deep");
        assert_eq!(error.expected, Expected::FewerTargets, "{targets}");
        assert!(error.at.start >= 2 * DEEPEST_TARGET, "{targets}: {error}");
    }
}

#[test]
fn the_longest_that_can_be_meant_is_read_and_printed_alike() {
    let head = format!("bbVII{LOADED}");
    let longest = [head.as_str(); DEEPEST_TARGET + 1].join("/") + "/bb7";
    let numeral: Numeral = longest.parse().expect("the longest numeral");
    let symbol: Symbol = format!("Cbbb{LOADED}/Gbbb")
        .parse()
        .expect("the longest symbol");
    for notation in NOTATIONS {
        let written = numeral.written(notation);
        assert_eq!(written.parse(), Ok(numeral.clone()), "{written}");
        let written = symbol.written(notation);
        assert_eq!(written.parse(), Ok(symbol), "{written}");
    }
    let other = "I".to_owned();
    let words: Vec<&str> = (0..1024)
        .map(|at| if at % 2 == 0 { &longest } else { &other }.as_str())
        .collect();
    let line = read_line(&words.join(" | ")).expect("the longest line");
    for notation in NOTATIONS {
        assert_eq!(read_line(&line.written(notation)).as_ref(), Ok(&line));
    }
}

#[test]
fn a_numeral_without_notes_in_the_key_names_itself_and_the_key() {
    let key: Key = "Cb".parse().expect("a key");
    let numeral: Numeral = "bbVII7/bbII".parse().expect("a numeral");
    let error = Chord::new(&numeral, key).expect_err("four flats");
    let message = error.to_string();
    assert!(message.contains("bbVII7/bbII") && message.contains("Cb major"));
}

#[test]
fn an_impossible_wish_is_refused_with_its_reason() {
    let catalogue = Catalogue::built_in();
    let id = |text: &str| text.parse::<DeviceId>().expect("an id");
    let refusal = |wanted: &str, never: &[&str], key: &str, bars| {
        let (wanted, never) = (id(wanted), never.iter().map(|n| id(n)).collect::<Vec<_>>());
        let request = Request {
            wanted: &wanted,
            company: &[],
            never: &never,
            key: key.parse().expect("a key"),
            meter: Meter::FourFour,
            bars,
            styles: &[],
            phrasing: Phrasing::Plain,
        };
        progression(&request, &catalogue, 1).err()
    };
    assert!(matches!(
        refusal("no-such-device", &[], "C", 8),
        Some(Refusal::UnknownDevice(_))
    ));
    assert!(matches!(
        refusal("picardy-third", &[], "C", 8),
        Some(Refusal::WrongMode { .. })
    ));
    assert!(matches!(
        refusal("turnaround", &[], "C", 0),
        Some(Refusal::Bars(0))
    ));
    assert!(matches!(
        refusal("turnaround", &[], "C", u32::MAX),
        Some(Refusal::Bars(u32::MAX))
    ));
    // A device cannot be wanted and excluded at once.
    assert!(matches!(
        refusal("minor-four", &["minor-four"], "C", 8),
        Some(Refusal::Forbidden { .. })
    ));
}

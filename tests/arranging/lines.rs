//! Lines for the tests, by hand and by chance.

use plagal::arranging::Setting;
use plagal::theory::{BareSix, Key, Line, Meter};
use proptest::prelude::*;

pub(crate) fn line(text: &str) -> Line {
    Line::read(text, Meter::FourFour, BareSix::AddedSixth)
        .unwrap_or_else(|error| panic!("`{text}`: {error}"))
}

pub(crate) fn key(text: &str) -> Key {
    text.parse().unwrap_or_else(|error| panic!("{error}"))
}

pub(crate) fn set(text: &str, in_key: &str, variation: u64) -> Setting {
    Setting::new(&line(text), key(in_key), variation).unwrap_or_else(|error| panic!("{error}"))
}

/// Chords that tonal music in major is made of, devices among them.
pub(crate) const MAJOR: [&str; 66] = [
    "I", "I", "I", "I/3", "I/5", "Iadd6", "Imaj7", "ii", "ii7", "ii/4", "ii7/4", "iii", "iii7",
    "IV", "IV", "IVadd6", "IVmaj7", "IV/6", "V", "V7", "V7", "V/7", "V7/7", "V7/2", "V7/4", "vi",
    "vi7", "viio", "viiø7", "V7/ii", "V7/iii", "V7/IV", "V7/V", "V7/vi", "V7/V/#4", "viio7/ii",
    "viio7/V", "viio7/vi", "#io7", "#ivo7", "#ivø7", "biiio7", "Io7", "subV7", "subV7/V",
    "subV7/ii", "iv", "iv7", "ivadd6", "iiø7", "bVII7", "bVII", "bVI", "bVImaj7", "bIII",
    "bIImaj7", "Ger6", "Fr6", "It6", "N6", "v7", "I7", "V7sus4", "V9", "V7b9", "I+",
];

pub(crate) const MINOR: [&str; 34] = [
    "i", "i", "i", "i/3", "i/5", "i7", "iadd6", "imaj7", "iiø7", "iiø7/4", "iio", "bIII",
    "bIIImaj7", "iv", "iv7", "iv/6", "V", "V7", "V7", "V7b9", "V7/7", "v", "bVI", "bVImaj7",
    "bVI7", "bVII", "bVII7", "viio7", "V7/iv", "V7/V", "Ger6", "N6", "IV7", "bII7",
];

fn any_text(chords: &'static [&'static str]) -> impl Strategy<Value = String> {
    prop::collection::vec(prop::sample::select(chords), 1..12).prop_map(|words| words.join(" "))
}

/// A line of sensible chords in no sensible order, and a key of its mode.
pub(crate) fn any_line() -> impl Strategy<Value = (String, Key)> {
    let keys: Vec<Key> = Key::all().collect();
    prop::sample::select(keys).prop_flat_map(|key| {
        let text = match key.mode() {
            plagal::theory::Mode::Major => any_text(&MAJOR).boxed(),
            plagal::theory::Mode::Minor => any_text(&MINOR).boxed(),
        };
        (text, Just(key))
    })
}

/// Progressions as they are played: what must come out without a fault.
pub(crate) const PROGRESSIONS: [(&str, &str); 30] = [
    ("I IV V7 I", "C"),
    ("ii7 V7 Imaj7", "C"),
    ("I vi ii7 V7 I", "C"),
    ("IVadd6 ivadd6 Iadd6 V7/ii V7/V V7 Iadd6", "G"),
    ("I IV iv I", "C"),
    ("I #io7 ii7 #iio7 iii7", "C"),
    ("iii7 biiio7 ii7 V7 I", "C"),
    ("IV #ivo7 I/5 V7/ii ii7 V7 I", "C"),
    ("III7 VI7 II7 V7 I", "C"),
    ("ii7 subV7 Imaj7", "C"),
    ("I Ger6 I/5 V7 I", "C"),
    ("i iv Ger6 V i", "C minor"),
    ("iiø7 V7b9 i", "C minor"),
    ("IV V7 vi", "C"),
    ("ii7 V7 bVImaj7 bVII7 I", "C"),
    ("iv7 bVII7 Imaj7", "C"),
    ("I bVI bVII I", "C"),
    ("i N6 V7 i", "C minor"),
    ("I Io7 I", "C"),
    ("i imaj7 i7 iadd6", "C minor"),
    ("I I+ Iadd6 I7 IV", "C"),
    ("i bVII bVI V i", "A minor"),
    ("ii7 V7sus4 V7 I", "C"),
    ("I viio I/3 IV V I", "C"),
    ("II7 ii7 V7 I", "C"),
    ("I V7/7 I V7/2 I/3", "C"),
    ("Imaj7 IVmaj7 viiø7 iii7 vi7 ii7 V7 Imaj7", "C"),
    ("v7 I7 IVmaj7 iv7 bVII7 Imaj7", "F"),
    ("viø7 iiø7 V7 i", "D minor"),
    ("I I/3 IV V7/V V7 I", "Eb"),
];

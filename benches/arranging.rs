//! How long arranging a line takes: eight chords in at most about 300 microseconds.

use divan::{Bencher, black_box};
use plagal::arranging::{Arrangement, Setting, Texture, arrange, faults};
use plagal::theory::{BareSix, Key, Line, Meter};

fn main() {
    divan::main();
}

const LINES: [&str; 4] = [
    "I vi IV V I vi IV V",
    "Imaj7 V7/ii ii7 V7 iii7 biiio7 ii7 V7",
    "IVadd6 ivadd6 Iadd6 V7/ii V7/V V7 Iadd6 IV",
    "ii9 V13 Imaj9 V7b9/ii ii9 bII7 Imaj9 vi9",
];

fn line(text: &str) -> Line {
    Line::read(text, Meter::FourFour, BareSix::AddedSixth)
        .unwrap_or_else(|error| panic!("`{text}`: {error}"))
}

#[divan::bench(args = LINES)]
fn eight_chords(bencher: Bencher, text: &str) {
    let line = line(text);
    let request = Arrangement {
        texture: Texture::HeldChords,
        tempo: 96.0,
        variation: 7,
    };
    bencher.bench(|| arrange(black_box(&line), Key::C_MAJOR, black_box(&request)));
}

#[divan::bench(args = LINES)]
fn faults_of_eight_chords(bencher: Bencher, text: &str) {
    let setting = Setting::new(&line(text), Key::C_MAJOR, 7)
        .unwrap_or_else(|error| panic!("`{text}`: {error}"));
    bencher.bench(|| faults(black_box(&setting)));
}

//! How long the catalogue takes to read a line: sixteen chords in about ten microseconds.

use divan::{Bencher, black_box};
use plagal::devices::Catalogue;
use plagal::theory::{BareSix, Line, Meter, Mode, Numeral};

/// Sixteen chords in the style that the generator writes.
const MAJOR: &str = "Iadd6 V7/ii | ii7 V7 | iii7 biiio7 | ii7 subV7 | v7 V7/IV | IVmaj7 ivadd6 | \
                     V7/vi V7/ii | V7/V V7";
const MINOR: &str = "i i/b7 | bVImaj7 V7/V | iiø7 V7 | i V7/iv | iv7 bVII7 | bIIImaj7 bVImaj7 | \
                     bVI7 V7 | i V7";

fn main() {
    divan::main();
}

#[divan::bench(args = [Mode::Major, Mode::Minor])]
fn find_in_sixteen_chords(bencher: Bencher<'_, '_>, mode: Mode) {
    let text = match mode {
        Mode::Major => MAJOR,
        Mode::Minor => MINOR,
    };
    let catalogue = Catalogue::built_in();
    let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("the line is read");
    let numerals: Vec<&Numeral> = line.numerals().collect();
    bencher.bench(|| catalogue.find(black_box(&numerals), mode));
}

#[divan::bench]
fn read_the_catalogue() -> Catalogue {
    Catalogue::built_in()
}

//! How fast a phrase of seven five-part chords is rendered, and a band, per second of sound.

use divan::counter::ItemsCount;
use plagal::arranging::{
    Arrangement, Note, Passage, Span, TICKS_PER_BEAT, Texture, Ticks, Voice, arrange,
};
use plagal::synth::{Settings, built_in, find, render};
use plagal::theory::{BareSix, Key, Line, Meter, Pitch, PitchClass};

fn main() {
    divan::main();
}

/// IVadd6 ivadd6 Iadd6 V7/ii V7/V V7 Iadd6 in G, bass first, as MIDI numbers.
const CHORDS: [[i32; 5]; 7] = [
    [48, 64, 67, 69, 72],
    [48, 63, 67, 69, 72],
    [43, 62, 64, 67, 71],
    [40, 62, 68, 71, 74],
    [45, 61, 67, 69, 73],
    [50, 60, 66, 69, 72],
    [43, 59, 64, 67, 74],
];

fn phrase() -> Passage {
    let length = 2 * TICKS_PER_BEAT;
    let mut notes = Vec::new();
    let mut chords = Vec::new();
    for (chord, midis) in CHORDS.iter().enumerate() {
        let start = chord as Ticks * length;
        for (part, midi) in midis.iter().enumerate() {
            let class = PitchClass::from_fifths(((midi * 7 + 5).rem_euclid(12) - 5) as i16);
            notes.push(Note {
                start,
                length,
                pitch: Pitch::at_or_above(class, *midi),
                strength: 0.6,
                voice: match part {
                    0 => Voice::Bass,
                    part => Voice::Upper(part as u8 - 1),
                },
            });
        }
        chords.push(Span {
            chord,
            start,
            end: start + length,
        });
    }
    Passage {
        tempo: 88.0,
        notes,
        length: length * CHORDS.len() as Ticks,
        chords,
        bassist: false,
    }
}

/// Items are milliseconds of sound: 300 times real time is 300 thousand items a second.
#[divan::bench(args = built_in().iter().map(|sound| sound.id.as_str()))]
fn phrase_of_ten_seconds(bencher: divan::Bencher, id: &str) {
    let sound = find(id).expect("a built-in sound");
    let (passage, settings) = (phrase(), Settings::default());
    let seconds = render(&passage, sound, &settings).seconds();
    bencher
        .counter(ItemsCount::new((seconds * 1000.0) as usize))
        .bench(|| render(&passage, sound, &settings));
}

/// A band of the built-in players on the piano, four bars at a medium tempo.
#[divan::bench(args = [Texture::Band, Texture::BandWithMelody])]
fn band_of_ten_seconds(bencher: divan::Bencher, texture: Texture) {
    let line = Line::read(
        "Imaj7 vi7 | ii7 V7 | Imaj7 vi7 | ii7 V7",
        Meter::FourFour,
        BareSix::AddedSixth,
    );
    let request = Arrangement {
        texture,
        tempo: 120.0,
        variation: 0,
    };
    let passage = arrange(&line.expect("a line"), Key::C_MAJOR, &request);
    let passage = passage.expect("chords near the key");
    let sound = find("piano").expect("a built-in sound");
    let settings = Settings::default();
    let seconds = render(&passage, sound, &settings).seconds();
    bencher
        .counter(ItemsCount::new((seconds * 1000.0) as usize))
        .bench(|| render(&passage, sound, &settings));
}

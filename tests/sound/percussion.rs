//! The rhythm section: heard, without pitch, and out of the way of the harmony.

use plagal::arranging::{Arrangement, Drum, Note, Passage, Strand, Texture, Voice, arrange};
use plagal::synth::{Band, Renderer, Settings, Sound, find, loudness, render, render_band};
use plagal::theory::{BareSix, Key, Line, Meter};

use super::notes::{SECOND, phrase, pitch};

fn sound() -> &'static Sound {
    find("electric-piano").expect("a built-in sound")
}

fn hits(drum: Drum, midi: i32) -> Passage {
    let notes = (0..4).map(|beat| Note {
        start: beat * SECOND / 2,
        length: SECOND / 3,
        pitch: pitch(midi),
        strength: 0.6,
        voice: Voice::Drum(drum),
    });
    Passage {
        tempo: 60.0,
        notes: notes.collect(),
        chords: Vec::new(),
        bassist: false,
        length: 2 * SECOND,
    }
}

fn raw(passage: &Passage) -> Vec<f32> {
    let mut renderer = Renderer::new(passage, &Band::of(sound()), &Settings::default());
    let mut samples = vec![0.0; 2 * renderer.frames()];
    renderer.fill(&mut samples);
    samples
}

#[test]
fn every_drum_sounds_and_its_pitch_does_not_matter() {
    for drum in Drum::ALL {
        let samples = raw(&hits(drum, 60));
        assert!(samples.iter().all(|value| value.is_finite()));
        let level = loudness(&samples, 48_000).expect("something to hear");
        assert!((-60.0..-30.0).contains(&level), "{drum:?}: {level} LUFS");
        assert!(samples == raw(&hits(drum, 72)), "{drum:?}");
    }
}

/// The phrase with a ride on every beat.
fn with_ride() -> Passage {
    let mut passage = phrase();
    for beat in 0..14 {
        passage.notes.push(Note {
            start: beat * SECOND,
            length: SECOND,
            pitch: pitch(60),
            strength: 0.5,
            voice: Voice::Drum(Drum::Ride),
        });
    }
    passage
}

#[test]
fn the_ride_stays_well_below_the_chords() {
    let ride: Passage = with_ride().only(Voice::Drum(Drum::Ride));
    let ride = loudness(&raw(&ride), 48_000).expect("a ride");
    let chords = loudness(&raw(&phrase()), 48_000).expect("chords");
    assert!(
        (10.0..25.0).contains(&(chords - ride)),
        "{chords} over {ride}"
    );
}

#[test]
fn the_bass_may_have_an_instrument_of_its_own() {
    let bass = find("upright-bass").expect("a built-in sound");
    let band = Band::of(sound()).with_bass(bass);
    let settings = Settings::default();
    assert!(render_band(&phrase(), &band, &settings) != render(&phrase(), sound(), &settings));
    let alone = phrase().only(Voice::Bass);
    assert!(render_band(&alone, &band, &settings) == render(&alone, bass, &settings));
}

#[test]
fn the_bass_alone_and_slower_is_the_bass_player_of_the_band() {
    let line = Line::read("ii7 | V7 | I", Meter::FourFour, BareSix::AddedSixth).expect("a line");
    let request = Arrangement {
        texture: Texture::Band,
        tempo: 120.0,
        variation: 4,
    };
    let band = arrange(&line, Key::C_MAJOR, &request).expect("chords near the key");
    let bass = find("upright-bass").expect("a built-in sound");
    let settings = Settings::default();
    for passage in [
        band.strand(Strand::Bass),
        band.strand(Strand::Bass).at_tempo(80.0),
    ] {
        assert!(passage.notes.iter().all(|note| note.voice == Voice::Bass));
        assert!(render(&passage, sound(), &settings) == render(&passage, bass, &settings));
    }
    let top = band.strand(Strand::Top);
    assert!(render(&top, sound(), &settings) != render(&top, bass, &settings));
}

#[test]
fn a_sound_without_low_notes_gets_a_bass_player() {
    let vibraphone = find("vibraphone").expect("a built-in sound");
    assert!(vibraphone.range.0.midi() > 40);
    let (bass, settings) = (phrase().only(Voice::Bass), Settings::default());
    let player = find("upright-bass").expect("a built-in sound");
    assert!(render(&bass, vibraphone, &settings) == render(&bass, player, &settings));
}

#[test]
fn the_drums_stay_below_the_chords_and_no_two_strokes_are_copies() {
    let line = Line::read("ii7 | V7 | I", Meter::FourFour, BareSix::AddedSixth).expect("a line");
    for tempo in [100.0, 180.0] {
        let request = Arrangement {
            texture: Texture::Band,
            tempo,
            variation: 4,
        };
        let band = arrange(&line, Key::C_MAJOR, &request).expect("chords near the key");
        let mut pitched = band.clone();
        pitched
            .notes
            .retain(|note| !matches!(note.voice, Voice::Drum(_)));
        let level = |passage| loudness(&raw(passage), 48_000).expect("it sounds");
        let below = level(&pitched) - level(&band.strand(Strand::Percussion));
        assert!((6.0..20.0).contains(&below), "{below} LU below at {tempo}");
    }
    for drum in [Drum::Ride, Drum::HiHat, Drum::Tap] {
        let samples = raw(&hits(drum, 60));
        let stroke = |number: usize| -> Vec<f64> {
            let from = number * 24_000;
            let frames = samples[2 * from..2 * (from + 5760)].chunks_exact(2);
            frames.map(|frame| f64::from(frame[0])).collect()
        };
        let (first, second) = (stroke(0), stroke(1));
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let alike = dot(&first, &second) / (dot(&first, &first) * dot(&second, &second)).sqrt();
        assert!(alike < 0.9, "{drum:?}: {alike}");
    }
}

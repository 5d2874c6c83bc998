//! What players of each style do, checked on what comes out. Where no source is named it
//! is common practice.

use plagal::arranging::{
    Arrangement, Drum, Note, Passage, TICKS_PER_BEAT, Texture, Ticks, Voice, arrange,
};
use plagal::theory::{BareSix, Chord, Key, Line, Meter, OCTAVE, PitchClass};

const TUNES: [(&str, &str); 4] = [
    (
        "Imaj7 | V7/ii | ii7 | V7 | I/3 biiio7 | ii7 V7 | Iadd6 | %",
        "C",
    ),
    (
        "IVadd6 | ivadd6 | Iadd6 | V7/ii | V7/V | V7 | Iadd6 | %",
        "G",
    ),
    (
        "iadd6 | iiø7 V7b9 | iadd6 | V7/iv | iv7 | bVImaj7 | iiø7 | V7b9",
        "Dm",
    ),
    ("I | #io7 | ii7 | #iio7 | iii7 | bIII7 | ii7 | subV7", "Eb"),
];

struct Played {
    chords: Vec<Chord>,
    passage: Passage,
}

fn play(tune: (&str, &str), texture: Texture, tempo: f32, variation: u64) -> Played {
    let line = Line::read(tune.0, Meter::FourFour, BareSix::AddedSixth).expect("a tune");
    let key: Key = tune.1.parse().expect("a key");
    let chords = line.numerals().map(|numeral| Chord::new(numeral, key));
    let request = Arrangement {
        texture,
        tempo,
        variation,
    };
    Played {
        chords: chords.collect::<Result<_, _>>().expect("near the key"),
        passage: arrange(&line, key, &request).expect("near the key"),
    }
}

impl Played {
    fn voice(&self, voice: Voice) -> Vec<Note> {
        self.passage.only(voice).notes
    }

    fn bass(&self) -> Vec<Note> {
        self.voice(Voice::Bass)
    }

    /// The improvised line: the highest numbered voice.
    fn melody(&self) -> Vec<Note> {
        let numbers = self
            .passage
            .notes
            .iter()
            .filter_map(|note| match note.voice {
                Voice::Upper(number) => Some(number),
                Voice::Bass | Voice::Drum(_) => None,
            });
        self.voice(Voice::Upper(numbers.max().expect("upper voices")))
    }

    fn drums(&self) -> Vec<(Ticks, Ticks, Voice, f32)> {
        let notes = self.passage.notes.iter();
        notes
            .filter(|note| matches!(note.voice, Voice::Drum(_)))
            .map(|note| (note.start, note.length, note.voice, note.strength))
            .collect()
    }

    fn chord_at(&self, time: Ticks) -> usize {
        let spans = &self.passage.chords;
        let found = spans
            .iter()
            .position(|span| (span.start..span.end).contains(&time));
        found.expect("a chord at every time")
    }

    fn belongs(&self, note: &Note) -> bool {
        let chord = &self.chords[self.chord_at(note.start)];
        let same = |class: &PitchClass| class.chromatic() == note.pitch.class.chromatic();
        chord.notes().iter().any(same)
    }
}

/// Every tune in several variations.
fn all(texture: Texture, tempo: f32) -> impl Iterator<Item = Played> {
    TUNES
        .into_iter()
        .flat_map(move |tune| (0..25).map(move |variation| play(tune, texture, tempo, variation)))
}

fn is_on_beat(note: &Note) -> bool {
    note.start.is_multiple_of(TICKS_PER_BEAT)
}

#[test]
fn foreign_notes_of_the_improvised_line_fall_between_beats_and_move_on_by_step() {
    let (mut foreign, mut all_notes) = (0, 0);
    for played in all(Texture::BandWithMelody, 140.0) {
        let melody = played.melody();
        for (index, note) in melody.iter().enumerate() {
            all_notes += 1;
            if played.belongs(note) {
                continue;
            }
            foreign += 1;
            assert!(!is_on_beat(note), "{note:?}");
            let next = melody.get(index + 1).expect("a foreign note is no end");
            let step = (next.pitch.midi() - note.pitch.midi()).abs();
            assert!((1..=2).contains(&step), "{note:?} {next:?}");
        }
    }
    let share = f64::from(foreign) / f64::from(all_notes);
    assert!((0.08..0.35).contains(&share), "{share}");
}

#[test]
fn a_walking_bass_walks() {
    let (mut steps, mut moves, mut leads, mut changes) = (0, 0, 0, 0);
    for played in all(Texture::WalkingBass, 140.0) {
        let bass = played.bass();
        let beats = played.passage.length / TICKS_PER_BEAT;
        assert_eq!(bass.len(), beats as usize, "a note on every beat");
        for pair in bass.windows(2) {
            let size = (pair[1].pitch.midi() - pair[0].pitch.midi()).abs();
            assert!(size <= OCTAVE, "{pair:?}");
            moves += 1;
            steps += i32::from((1..=4).contains(&size));
            if played.chord_at(pair[0].start) != played.chord_at(pair[1].start) {
                changes += 1;
                leads += i32::from((1..=2).contains(&size));
            }
        }
    }
    assert!(
        steps * 10 > moves * 8,
        "{steps} of {moves} by step or third"
    );
    assert!(leads * 10 > changes * 6, "{leads} of {changes} led by step");
}

#[test]
fn walking_basses_differ_from_time_to_time() {
    let lines = (0..25).map(|variation| {
        let bass = play(TUNES[0], Texture::WalkingBass, 140.0, variation).bass();
        bass.iter().map(|note| note.pitch.to_string()).collect()
    });
    let mut lines: Vec<String> = lines.collect();
    lines.sort();
    lines.dedup();
    assert!(lines.len() >= 10, "{}", lines.len());
}

#[test]
fn a_bass_in_two_alternates_root_and_fifth() {
    let played = play(
        ("Imaj7 | IV7 | I/5 | iiø7", "F"),
        Texture::TwoFeel,
        110.0,
        3,
    );
    let bass: Vec<String> = played
        .bass()
        .iter()
        .map(|note| note.pitch.class.to_string())
        .collect();
    // Over an inversion it stays; a half-diminished chord has its own, diminished fifth.
    assert_eq!(bass.join(" "), "F C Bb F C C G Db");
}

#[test]
fn double_time_walks_twice_as_often_and_no_chord_changes_sooner() {
    let plain = play(TUNES[1], Texture::Band, 80.0, 1);
    let doubled = play(TUNES[1], Texture::BandDoubleTime, 80.0, 1);
    assert_eq!(doubled.bass().len(), 2 * plain.bass().len());
    assert_eq!(doubled.passage.chords, plain.passage.chords);
}

#[test]
fn drums_know_nothing_of_the_chords() {
    for texture in [Texture::Band, Texture::BandWithMelody, Texture::Ballad] {
        for variation in 0..10 {
            let one = play(TUNES[0], texture, 140.0, variation).drums();
            let other = play(TUNES[1], texture, 140.0, variation).drums();
            assert!(!one.is_empty());
            assert_eq!(one, other, "{texture}");
        }
    }
}

/// The beat that a note is nearest to, and how far it strays from it.
fn nearest_beat(note: &Note) -> (u32, u32) {
    let beat = (note.start + TICKS_PER_BEAT / 2) / TICKS_PER_BEAT;
    (beat, note.start.abs_diff(beat * TICKS_PER_BEAT))
}

#[test]
fn the_ride_swings_with_accents_on_two_and_four() {
    let played = play(TUNES[0], Texture::Band, 180.0, 3);
    let strokes = played.voice(Voice::Drum(Drum::Ride));
    let mean = |chosen: &dyn Fn(&Note) -> bool| {
        let strengths: Vec<f32> = strokes
            .iter()
            .filter(|note| chosen(note))
            .map(|note| note.strength)
            .collect();
        assert!(strengths.len() >= 6);
        strengths.iter().sum::<f32>() / strengths.len() as f32
    };
    let is_main = |note: &Note| nearest_beat(note).1 <= TICKS_PER_BEAT / 100;
    let back = mean(&|note| is_main(note) && nearest_beat(note).0 % 2 == 1);
    let down = mean(&|note| is_main(note) && nearest_beat(note).0.is_multiple_of(2));
    let skip = mean(&|note| !is_main(note));
    assert!(
        back > 1.1 * down && down > 1.1 * skip,
        "{down} {back} {skip}"
    );
    for note in strokes.iter().filter(|note| !is_main(note)) {
        // 180 a minute: the short eighth of 100 ms leaves 70 percent to the long one.
        let place = (note.start % TICKS_PER_BEAT) as f32 / TICKS_PER_BEAT as f32;
        assert!((place - 0.7).abs() < 0.011, "{place}");
    }
    assert!(
        play(TUNES[0], Texture::Band, 110.0, 3)
            .voice(Voice::Drum(Drum::Ride))
            .is_empty()
    );
}

#[test]
fn no_two_bars_of_drums_are_alike() {
    for tempo in [100.0, 180.0] {
        let drums = play(TUNES[0], Texture::Band, tempo, 5).drums();
        let bar = |number: u32| -> Vec<(u32, u32)> {
            let start = number * 4 * TICKS_PER_BEAT;
            let from = start.saturating_sub(TICKS_PER_BEAT / 4);
            let within = drums
                .iter()
                .filter(|note| (from..start + 15 * TICKS_PER_BEAT / 4).contains(&note.0));
            within
                .map(|note| (note.0 + TICKS_PER_BEAT - start, note.3.to_bits()))
                .collect()
        };
        assert!(!bar(0).is_empty());
        for one in 0..4 {
            for other in one + 1..4 {
                assert_ne!(bar(one), bar(other));
            }
        }
    }
}

#[test]
fn the_hi_hat_closes_on_two_and_four() {
    let played = play(TUNES[0], Texture::Band, 140.0, 0);
    for note in played.voice(Voice::Drum(Drum::HiHat)) {
        let (beat, astray) = nearest_beat(&note);
        assert!(astray <= TICKS_PER_BEAT / 100, "{note:?}");
        assert!(beat % 4 == 1 || beat % 4 == 3, "{note:?}");
    }
}

#[test]
fn off_beats_swing_by_the_tempo_and_a_bossa_is_even() {
    // Friberg and Sundström, Music Perception 19 (2002): the short eighth lasts some 100 ms
    // from medium to fast tempos, so that fast eighths are even.
    for tempo in [210.0_f32, 240.0, 270.0] {
        let beat_seconds = 60.0 / tempo;
        let played = play(TUNES[0], Texture::WalkingBass, tempo, 2);
        let mut off_beats = 0;
        for note in played.voice(Voice::Upper(0)) {
            if is_on_beat(&note) {
                continue;
            }
            off_beats += 1;
            let place = (note.start % TICKS_PER_BEAT) as f32 / TICKS_PER_BEAT as f32;
            let short = (1.0 - place) * beat_seconds;
            assert!((short - 0.1).abs() < 0.001, "{tempo}: {short}");
        }
        assert!(off_beats > 0);
    }
    for note in play(TUNES[0], Texture::Bossa, 130.0, 2).passage.notes {
        assert!(note.start.is_multiple_of(TICKS_PER_BEAT / 2), "{note:?}");
    }
}

#[test]
fn four_parts_are_four() {
    for played in all(Texture::FourParts, 70.0) {
        for span in &played.passage.chords {
            let struck = played
                .passage
                .notes
                .iter()
                .filter(|note| note.start == span.start);
            assert_eq!(struck.count(), 4);
        }
    }
}

#[test]
fn harder_textures_say_so() {
    // Fewest and plainest notes first; a melody with foreign notes hides most.
    let order = [
        Texture::HeldChords,
        Texture::FourToTheBar,
        Texture::TwoFeel,
        Texture::WalkingBass,
        Texture::Band,
        Texture::BandDoubleTime,
        Texture::BandWithMelody,
    ];
    assert!(order.is_sorted_by(|one, other| one.card().difficulty < other.card().difficulty));
}

//! Every texture keeps the question fair and the chords legible, whatever the line.

use std::collections::BTreeSet;

use plagal::arranging::{
    Arrangement, BASS_REACH, Note, Passage, TICKS_PER_BEAT, TOP, Texture, Ticks, UPPER, Voice,
    arrange, low_limit,
};
use plagal::theory::{
    BareSix, Chord, IntervalClass, Key, Line, Member, Meter, OCTAVE, Pitch, PitchClass,
};
use proptest::prelude::*;

/// The highest an improvised line goes: G5.
const MELODY_TOP: i32 = 79;

const NUMERALS: [&str; 44] = [
    "I", "Iadd6", "Imaj7", "I/3", "I/5", "I7", "ii", "ii7", "iiø7", "iii7", "IV", "IVadd6",
    "IVmaj7", "iv", "ivadd6", "iv7", "V", "V7", "V7/5", "V7/7", "V7sus4", "V7b9", "V9", "vi",
    "vi7", "viio7", "viiø7", "bVII7", "bVImaj7", "bIIImaj7", "bIImaj7", "subV7", "V7/ii", "V7/V",
    "V7/vi", "V7/IV", "viio7/V", "#ivø7", "#ivo7", "N6", "Ger6", "Fr6", "It6", "I+",
];

fn numerals() -> impl Strategy<Value = String> {
    let bar = proptest::collection::vec(proptest::sample::select(&NUMERALS[..]), 1..=4);
    let bars = prop_oneof![
        4 => proptest::sample::select(&NUMERALS[..]).prop_map(str::to_owned),
        2 => bar.prop_map(|chords| chords.join(" ")),
        1 => Just("%".to_owned()),
    ];
    proptest::collection::vec(bars, 1..8).prop_map(|bars| format!("I | {}", bars.join(" | ")))
}

fn meters() -> impl Strategy<Value = Meter> {
    proptest::sample::select(&Meter::ALL[..])
}

fn keys() -> impl Strategy<Value = Key> {
    proptest::sample::select(Key::everyday().collect::<Vec<Key>>())
}

struct Case {
    chords: Vec<Chord>,
    passage: Passage,
    texture: Texture,
}

/// What a line becomes; nothing if a numeral is too remote from the key.
fn case(text: &str, meter: Meter, key: Key, request: &Arrangement) -> Option<Case> {
    let line = Line::read(text, meter, BareSix::AddedSixth).expect("a line of numerals");
    let chords: Option<Vec<Chord>> = line
        .numerals()
        .map(|numeral| Chord::new(numeral, key).ok())
        .collect();
    let passage = arrange(&line, key, request).ok()?;
    Some(Case {
        chords: chords?,
        passage,
        texture: request.texture,
    })
}

impl Case {
    fn pitched(&self) -> impl Iterator<Item = &Note> {
        let notes = self.passage.notes.iter();
        notes.filter(|note| !matches!(note.voice, Voice::Drum(_)))
    }

    /// Notes that sound at some time from `start` up to `end`.
    fn sounding(&self, start: Ticks, end: Ticks) -> Vec<&Note> {
        self.pitched()
            .filter(|note| note.start < end && note.start + note.length > start)
            .collect()
    }
}

/// What must be heard of a chord: all but its root and a perfect fifth, and the bass.
fn telling(chord: &Chord) -> BTreeSet<i32> {
    let plain = |class: PitchClass, member: Member| {
        member == Member::Root
            || member == Member::Fifth && class.above(chord.root()) == IntervalClass::PERFECT_FIFTH
    };
    chord
        .tones()
        .iter()
        .filter(|tone| !plain(tone.class, tone.member))
        .map(|tone| tone.class.chromatic())
        .chain([chord.bass().chromatic()])
        .collect()
}

/// How long the first beat of a chord is.
fn first_beat(case: &Case, chord: usize) -> (Ticks, Ticks) {
    let span = case.passage.chords[chord];
    (span.start, span.end.min(span.start + TICKS_PER_BEAT))
}

fn each_chord_is_stated_in_its_first_beat(case: &Case) -> Result<(), TestCaseError> {
    for (index, chord) in case.chords.iter().enumerate() {
        let (start, end) = first_beat(case, index);
        let heard: BTreeSet<i32> = case
            .pitched()
            .filter(|note| (start..end).contains(&note.start))
            .map(|note| note.pitch.midi().rem_euclid(OCTAVE))
            .collect();
        let missing: Vec<i32> = telling(chord).difference(&heard).copied().collect();
        prop_assert!(
            missing.is_empty(),
            "{}: {} lacks {missing:?}, heard {heard:?}",
            case.texture,
            chord.numeral()
        );
    }
    Ok(())
}

fn the_bass_states_the_inversion(case: &Case) -> Result<(), TestCaseError> {
    for (index, chord) in case.chords.iter().enumerate() {
        let (start, end) = first_beat(case, index);
        let bass = case
            .pitched()
            .find(|note| note.voice == Voice::Bass && note.start == start);
        let bass = bass.map(|note| note.pitch);
        prop_assert_eq!(bass.map(|pitch| pitch.class), Some(chord.bass()));
        let lowest = case.sounding(start, start + 1).into_iter();
        let lowest = lowest.map(|note| note.pitch.midi()).min();
        prop_assert_eq!(lowest, bass.map(Pitch::midi));
        prop_assert!(start < end);
    }
    Ok(())
}

fn notes_lie_in_their_registers(case: &Case) -> Result<(), TestCaseError> {
    for note in case.pitched() {
        let midi = note.pitch.midi();
        let fits = match (note.voice, case.texture) {
            (Voice::Bass, _) => BASS_REACH.contains(&midi),
            (_, Texture::BandWithMelody) => (*UPPER.start()..=MELODY_TOP).contains(&midi),
            (_, _) => (*UPPER.start()..=TOP).contains(&midi),
        };
        prop_assert!(fits, "{}: {} in {:?}", case.texture, note.pitch, note.voice);
    }
    Ok(())
}

fn low_intervals_are_clear(case: &Case) -> Result<(), TestCaseError> {
    for moment in case.pitched().map(|note| note.start) {
        let mut heights: Vec<i32> = case
            .sounding(moment, moment + 1)
            .iter()
            .map(|note| note.pitch.midi())
            .collect();
        heights.sort_unstable();
        for pair in heights.windows(2) {
            prop_assert!(
                pair[0] >= low_limit(pair[1] - pair[0]),
                "{}: {pair:?}",
                case.texture
            );
        }
    }
    Ok(())
}

/// Fifths and octaves between bass and top voice, both moving, from chord to chord; the
/// first note of each voice counts.
fn outer_voices_run_in_no_parallels(case: &Case) -> Result<(), TestCaseError> {
    let outer: Vec<Option<(i32, i32)>> = (0..case.chords.len())
        .map(|index| {
            let (start, end) = first_beat(case, index);
            let mut begun = BTreeSet::new();
            let first_of_each = case
                .pitched()
                .filter(|note| (start..end).contains(&note.start) && note.voice != Voice::Bass)
                .filter(|note| begun.insert(format!("{:?}", note.voice)));
            let top = first_of_each.map(|note| note.pitch.midi()).max()?;
            let bass = case.pitched().find(|note| note.start == start)?;
            Some((bass.pitch.midi(), top))
        })
        .collect();
    for pair in outer.windows(2) {
        let (Some(one), Some(other)) = (pair[0], pair[1]) else {
            continue;
        };
        let distance = |(bass, top): (i32, i32)| (top - bass).rem_euclid(OCTAVE);
        let both_move = one.0 != other.0 && one.1 != other.1;
        let perfect = matches!(distance(one), 0 | 7);
        prop_assert!(
            !(both_move && perfect && distance(one) == distance(other)),
            "{}: {one:?} {other:?}",
            case.texture
        );
    }
    Ok(())
}

fn notes_are_in_order_and_in_time(case: &Case) -> Result<(), TestCaseError> {
    let notes = &case.passage.notes;
    prop_assert!(notes.windows(2).all(|pair| pair[0].start <= pair[1].start));
    for (index, note) in notes.iter().enumerate() {
        prop_assert!(note.length > 0, "{}: {note:?}", case.texture);
        prop_assert!(note.start + note.length <= case.passage.length);
        prop_assert!(note.strength > 0.0 && note.strength <= 1.0);
        let overlapped = notes[index + 1..]
            .iter()
            .find(|later| later.voice == note.voice && later.start < note.start + note.length);
        prop_assert!(
            overlapped.is_none(),
            "{}: {note:?} {overlapped:?}",
            case.texture
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn every_texture_is_fair_and_legible(
        text in numerals(),
        meter in meters(),
        key in keys(),
        tempo in 40f32..260.0,
        variation in 0..1000u64,
    ) {
        for texture in Texture::ALL {
            let request = Arrangement { texture, tempo, variation };
            let Some(case) = case(&text, meter, key, &request) else {
                return Ok(());
            };
            notes_are_in_order_and_in_time(&case)?;
            notes_lie_in_their_registers(&case)?;
            the_bass_states_the_inversion(&case)?;
            each_chord_is_stated_in_its_first_beat(&case)?;
            low_intervals_are_clear(&case)?;
            outer_voices_run_in_no_parallels(&case)?;
        }
    }

    #[test]
    fn a_variation_is_the_same_again(text in numerals(), key in keys(), variation in 0..1000u64) {
        for texture in Texture::ALL {
            let request = Arrangement { texture, tempo: 120.0, variation };
            let one = case(&text, Meter::FourFour, key, &request);
            let other = case(&text, Meter::FourFour, key, &request);
            prop_assert_eq!(one.map(|case| case.passage), other.map(|case| case.passage));
        }
    }
}

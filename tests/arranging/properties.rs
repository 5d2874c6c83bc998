//! What must hold of every setting of any line in any key, checked from the pitches alone.

use crate::lines::{any_line, line};
use plagal::arranging::{Setting, faults};
use plagal::theory::{AugmentedSixth, Chord, Head, Member, Numeral, Pitch};
use proptest::prelude::*;

/// The limits in the words of the rule book: MIDI numbers of E2, G3, C5 and E5.
const E2: i32 = 40;
const G3: i32 = 55;
const C5: i32 = 72;
const E5: i32 = 76;

/// Low-interval limits as arrangers learn them (common practice, from memory): semitones
/// and the lowest MIDI number they may stand on.
const LOW_LIMITS: [(i32, i32); 5] = [(2, 51), (3, 48), (4, 46), (5, 46), (7, 34)];

fn midis(pitches: &[Pitch]) -> Vec<i32> {
    pitches.iter().map(|pitch| pitch.midi()).collect()
}

/// The members of a chord that no voicing may leave out.
fn telling(chord: &Chord) -> impl Iterator<Item = plagal::theory::PitchClass> + '_ {
    let augmented_sixth = matches!(chord.numeral().head, Head::AugmentedSixth(_));
    chord
        .tones()
        .iter()
        .filter(move |tone| augmented_sixth || tone.member != Member::Fifth)
        .map(|tone| tone.class)
}

fn parallels(setting: &Setting) -> u32 {
    let mut count = 0;
    for pair in setting.voicings.windows(2) {
        let (bass, top) = (pair[0].bass.midi(), pair[0].top().midi());
        let (next_bass, next_top) = (pair[1].bass.midi(), pair[1].top().midi());
        let perfect = [0, 7].contains(&((top - bass) % 12));
        let same = (top - bass) % 12 == (next_top - next_bass) % 12;
        count += u32::from(perfect && same && bass != next_bass && top != next_top);
    }
    count
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn voicings_keep_the_rules((text, key) in any_line(), variation in 0u64..64) {
        let line = line(&text);
        let setting = Setting::new(&line, key, variation);
        prop_assume!(setting.is_ok());
        let setting = setting.expect("assumed");
        for (chord, voicing) in setting.chords.iter().zip(&setting.voicings) {
            let numeral: &Numeral = chord.numeral();
            prop_assert_eq!(voicing.bass.class, chord.bass(), "the bass says the inversion");
            prop_assert!((E2..=G3).contains(&voicing.bass.midi()));
            let upper = midis(&voicing.upper);
            // The Italian sixth has three notes, two of them not to be doubled: where the
            // tonic fits only once, two voices remain.
            let fewest = if numeral.head == Head::AugmentedSixth(AugmentedSixth::Italian) { 2 } else { 3 };
            prop_assert!((fewest..=6).contains(&upper.len()), "{} in {}: {:?}", numeral, key, upper);
            for pair in upper.windows(2) {
                prop_assert!(pair[0] < pair[1] && pair[1] - pair[0] <= 12);
            }
            prop_assert!(upper[0] >= G3 && upper[upper.len() - 1] <= E5);
            prop_assert!(upper[upper.len() - 2] <= C5);
            prop_assert!(upper[0] > voicing.bass.midi());
            for (semitones, lowest) in LOW_LIMITS {
                if upper[0] - voicing.bass.midi() == semitones {
                    prop_assert!(voicing.bass.midi() >= lowest);
                }
            }
            let sounding: Vec<_> = voicing.pitches().map(|pitch| pitch.class.chromatic()).collect();
            for class in telling(chord) {
                prop_assert!(
                    sounding.contains(&class.chromatic()),
                    "{} in {} lacks {}: {:?}", numeral, key, class, voicing
                );
            }
            for pitch in &voicing.upper {
                let own = chord.tones().iter().any(|tone| tone.class == pitch.class);
                prop_assert!(own, "{} in {}: {} is foreign", numeral, key, pitch);
            }
            let sevenths = chord.member(Member::Seventh).map_or(0, |seventh| {
                sounding.iter().filter(|sound| **sound == seventh.chromatic()).count()
            });
            prop_assert!(sevenths <= 1, "{} in {}: {:?}", numeral, key, voicing);
        }
        let found = faults(&setting);
        prop_assert_eq!(found.range_faults, 0);
        prop_assert_eq!(found.outer_parallels, parallels(&setting));
        prop_assert_eq!(Setting::new(&line, key, variation), Ok(setting));
    }
}

#[test]
fn random_lines_lead_smoothly_on_the_whole() {
    // Random order is harsher than any tune; even so faults must stay rare.
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let mut all = plagal::arranging::VoiceLeading::default();
    for variation in 0..400 {
        let (text, key) = any_line().new_tree(&mut runner).expect("a line").current();
        if let Ok(setting) = Setting::new(&line(&text), key, variation) {
            let found = faults(&setting);
            all += found;
        }
    }
    assert!(all.moves > 4000, "{all:?}");
    assert_eq!(all.outer_parallels, 0, "{all:?}");
    assert_eq!(all.unresolved_leading_tones, 0, "{all:?}");
    assert!(all.unresolved_sevenths * 500 <= all.moves, "{all:?}");
    assert!(all.mean_motion() < 2.5, "{all:?}");
}

//! The report of faults, on settings written badly by hand.

use crate::lines::set;
use plagal::arranging::{Setting, VoiceLeading, Voicing, faults};

/// A setting of `text` in C with other notes, the bass first.
fn written(text: &str, chords: &[&str]) -> Setting {
    let voicings = chords.iter().map(|chord| {
        let mut pitches = chord.split(' ').map(|name| name.parse().expect("a pitch"));
        Voicing {
            bass: pitches.next().expect("a bass"),
            upper: pitches.collect(),
        }
    });
    Setting {
        voicings: voicings.collect(),
        ..set(text, "C", 0)
    }
}

#[test]
fn good_part_writing_has_no_fault() {
    // The textbook cadence: 7 to 1 on top, 4 to 3 below it, 2 to 1, the common tone held.
    let setting = written("V7 I", &["G2 G3 D4 F4 B4", "C3 G3 C4 E4 C5"]);
    let expected = VoiceLeading {
        largest_leap: 2,
        motion: 4,
        moves: 4,
        ..VoiceLeading::default()
    };
    assert_eq!(faults(&setting), expected);
    assert!((expected.mean_motion() - 1.0).abs() < 1e-9);
}

#[test]
fn each_fault_is_counted_in_its_place() {
    let found = |text: &str, chords: &[&str]| {
        let found = faults(&written(text, chords));
        (
            found.outer_parallels,
            found.range_faults,
            found.unresolved_leading_tones,
            found.unresolved_sevenths,
        )
    };
    let parallel_fifths = ["C3 C4 E4 G4", "D3 A3 F4 A4"];
    assert_eq!(found("I ii", &parallel_fifths).0, 1);
    let octaves = ["C3 G3 E4 C5", "G2 B3 D4 G4"];
    assert_eq!(found("I V", &octaves).0, 1);
    let octaves_in_contrary_motion = ["C3 G3 E4 C5", "G2 B3 D4 G5"];
    assert_eq!(found("I V", &octaves_in_contrary_motion).0, 1);
    let tenth_to_fifth = ["C3 G3 C4 E4", "D3 F3 D4 A4"];
    assert_eq!(found("I ii", &tenth_to_fifth).0, 0);
    // The leading tone drops to 5 although the tonic is there to take it.
    let dropped = ["G2 D4 F4 B4", "C3 C4 E4 G4"];
    assert_eq!(found("V7 I", &dropped), (0, 0, 1, 0));
    // The seventh climbs to 5 although 3 is there to take it.
    let climbing = ["G2 B3 D4 F4", "C3 C4 E4 G4"];
    assert_eq!(found("V7 I", &climbing), (0, 0, 0, 1));
    // Too low a bass, too low an inner voice, too wide a gap, too high a top.
    assert_eq!(found("I", &["C2 E4 G4 C5"]).1, 1);
    assert_eq!(found("I", &["C3 E3 G4 C5"]).1, 2);
    assert_eq!(found("I", &["C3 G3 E4 G5"]).1, 2);
    // A major third on A2 lies below its limit of B flat 2, as the register does.
    assert_eq!(found("VI", &["A2 C#3 E4 A4"]).1, 3);
}

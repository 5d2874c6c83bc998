//! Worked part-writing: where the voices go in the progressions of the handbooks.
//!
//! Each fact is tried in several variations; it must hold in every one. Facts named
//! "textbook" are common practice in every harmony book; tells of devices name the book.

use crate::lines::{PROGRESSIONS, key, line, set};
use plagal::arranging::{Setting, faults};
use plagal::theory::{Pitch, PitchClass};

const VARIATIONS: u64 = 16;

fn class(name: &str) -> PitchClass {
    name.parse().expect("a note name")
}

/// The upper voices of a chord as pitches, in the order of the voices.
fn moves(setting: &Setting, chord: usize) -> Vec<(Pitch, Pitch)> {
    let (before, after) = (&setting.voicings[chord], &setting.voicings[chord + 1]);
    assert_eq!(before.upper.len(), after.upper.len(), "one density");
    let voices = before.upper.iter().zip(&after.upper);
    voices.map(|(one, other)| (*one, *other)).collect()
}

/// Asserts that a voice goes through `notes` from chord `from` on, by steps of at most a
/// whole tone.
fn goes(text: &str, in_key: &str, from: usize, notes: &str) {
    let notes: Vec<PitchClass> = notes.split(' ').map(class).collect();
    for variation in 0..VARIATIONS {
        let setting = set(text, in_key, variation);
        let voices = setting.voicings[from].upper.len();
        let carries = |voice: usize| {
            let line: Vec<Pitch> = (0..notes.len())
                .map(|chord| setting.voicings[from + chord].upper[voice])
                .collect();
            let spelled = line
                .iter()
                .zip(&notes)
                .all(|(pitch, note)| pitch.class == *note);
            let stepwise = line
                .windows(2)
                .all(|pair| (pair[1].midi() - pair[0].midi()).abs() <= 2);
            spelled && stepwise
        };
        assert!(
            (0..voices).any(carries),
            "{text}: no voice goes {notes:?} in {:?}",
            setting.voicings
        );
    }
}

fn bass(text: &str, in_key: &str) -> String {
    let notes: Vec<String> = set(text, in_key, 0)
        .voicings
        .iter()
        .map(|voicing| voicing.bass.to_string())
        .collect();
    notes.join(" ")
}

/// Asserts that nothing sounds twice in the upper voices or above the bass.
fn sounds_once(text: &str, in_key: &str, chord: usize, note: &str) {
    for variation in 0..VARIATIONS {
        let setting = set(text, in_key, variation);
        let times = setting.voicings[chord]
            .pitches()
            .filter(|pitch| pitch.class == class(note))
            .count();
        assert_eq!(times, 1, "{text}: {note} in {:?}", setting.voicings[chord]);
    }
}

#[test]
fn dominant_seventh_resolves_into_the_tonic() {
    // Textbook: the leading tone rises (7 to 1), the seventh falls (4 to 3).
    goes("I V7 I", "C", 1, "B C");
    goes("I V7 I", "C", 1, "F E");
    goes("i V7 i", "C minor", 1, "B C");
    goes("i V7 i", "C minor", 1, "F Eb");
}

#[test]
fn plagal_cadence_holds_the_tonic() {
    // Open Music Theory, plagal motion: 6 to 5 and 4 to 3 over a held 1.
    goes("I IV I", "C", 1, "A G");
    goes("I IV I", "C", 1, "C C");
}

#[test]
fn two_five_one_passes_guide_tones() {
    // Open Music Theory, ii-V-I: the seventh of one chord falls to the third of the next.
    goes("ii7 V7 Imaj7", "C", 0, "C B");
    goes("ii7 V7 Imaj7", "C", 0, "F F E");
    assert_eq!(bass("ii7 V7 Imaj7", "C"), "D3 G2 C3");
}

#[test]
fn minor_four_slides_down_in_one_voice() {
    // Multimodal Musicianship, ch. 40: 6 - flat 6 - 5 in one voice, the tonic held.
    goes("I IV iv I", "C", 1, "A Ab G");
    goes("I IV iv I", "Eb", 1, "C Cb Bb");
    goes("IVadd6 ivadd6 Iadd6", "G", 0, "E Eb D");
}

#[test]
fn deceptive_cadence_keeps_its_leading_tone() {
    // Hutchinson, Music Theory for the 21st-Century Classroom: 7 rises to 1, bass 5 to 6.
    goes("IV V7 vi", "C", 1, "B C");
    assert_eq!(bass("IV V7 vi", "C"), "F2 G2 A2");
}

#[test]
fn applied_dominants_resolve_like_dominants() {
    // Hutchinson, secondary dominants: V7/V has sharp 4 to 5, V7/ii sharp 1 to 2.
    goes("I V7/V V I", "C", 1, "F# G");
    goes("I V7/ii ii V7", "C", 1, "C# D");
    goes("I V7/IV IV I", "C", 1, "Bb A");
}

#[test]
fn chain_of_dominants_slides_by_semitones() {
    // Hutchinson, III-VI-II-V of dominant sevenths: each third falls to the next seventh,
    // each seventh to the next third.
    goes("III7 VI7 II7 V7", "C", 0, "G# G F# F");
    goes("III7 VI7 II7 V7", "C", 0, "D C# C B");
}

#[test]
fn tritone_substitute_keeps_the_guide_tones() {
    // Open Music Theory, substitutions: 4 falls to 3, the flat 1 (7) is held or rises to 1.
    goes("ii7 subV7 Imaj7", "C", 0, "F F E");
    goes("ii7 subV7 I", "C", 0, "C Cb C");
    assert_eq!(bass("ii7 subV7 Imaj7", "C"), "D3 Db3 C3");
}

#[test]
fn augmented_sixth_opens_outward_to_the_octave() {
    // Open Music Theory, augmented sixths: flat 6 falls, sharp 4 rises, both to 5.
    for sixth in ["It6", "Fr6", "Ger6"] {
        goes(&format!("iv {sixth} V i"), "C minor", 1, "F# G");
        let bass = bass(&format!("iv {sixth} V i"), "C minor");
        assert!(bass.starts_with("F2 Ab2 G2"), "{bass}");
    }
    goes("I Ger6 I/5 V7", "C", 1, "Eb E");
}

#[test]
fn neapolitan_falls_to_the_leading_tone() {
    // Hutchinson, Neapolitan: flat 2 goes down to 7, a diminished third, in one voice.
    goes("i N6 V7 i", "C minor", 1, "Db B C");
}

#[test]
fn passing_diminished_sevenths_climb_in_the_bass() {
    // Nettles, Harmony 3: ascending diminished sevenths, bass 1 - sharp 1 - 2.
    assert_eq!(bass("I #io7 ii7 #iio7 iii7", "C"), "C3 C#3 D3 D#3 E3");
    // The diminished seventh falls by step: flat 7 to 6.
    goes("I #io7 ii7", "C", 1, "Bb A");
    // In whichever octave, but within one.
    let climbs = bass("IV #ivo7 I/5", "C");
    assert!(
        ["F2 F#2 G2", "F3 F#3 G3"].contains(&climbs.as_str()),
        "{climbs}"
    );
    // Common-tone reading of the sharp-four chord: flat 3 rises to 3, 6 falls, 1 is held.
    goes("IV #ivo7 I/5 V7", "C", 1, "Eb E");
    goes("IV #ivo7 I/5 V7", "C", 1, "A G");
    goes("IV #ivo7 I/5 V7", "C", 1, "C C");
}

#[test]
fn common_tone_diminished_seventh_closes_around_the_root() {
    // Open Music Theory, common-tone chords: flat 3 to 3 and flat 5 to 5, the root held.
    goes("I Io7 I", "C", 0, "E Eb E");
    goes("I Io7 I", "C", 0, "G Gb G");
    assert_eq!(bass("I Io7 I", "C"), "C3 C3 C3");
}

#[test]
fn backdoor_dominant_falls_into_the_tonic() {
    // Backdoor dominant (Coker, second-hand): flat 6 to 5 and 4 to 3, no leading tone.
    goes("iv7 bVII7 I", "C", 1, "Ab G");
    goes("iv7 bVII7 I", "C", 1, "F E");
}

#[test]
fn line_cliches_keep_to_one_voice() {
    // Nettles, Harmony 2 (second-hand): 8-7-flat 7-6 over a held minor triad; in major 5-sharp 5-6.
    goes("i imaj7 i7 iadd6", "C minor", 0, "C B Bb A");
    goes("I I+ Iadd6", "C", 0, "G G# A");
}

#[test]
fn suspended_fourth_and_flat_ninth_fall() {
    // Textbook: a suspended fourth resolves down to the third, a flat ninth to the fifth.
    goes("ii7 V7sus4 V7 I", "C", 1, "C B C");
    goes("iiø7 V7b9 i", "C minor", 0, "Ab Ab G");
}

#[test]
fn lament_bass_walks_down_a_fourth() {
    // Open Music Theory, lament: 1 - flat 7 - flat 6 - 5.
    assert_eq!(bass("i bVII bVI V", "A minor"), "A2 G2 F2 E2");
    assert_eq!(bass("i i/7 i/b7 iv/6", "C minor"), "C3 B2 Bb2 Ab2");
}

#[test]
fn tendency_tones_sound_once() {
    // Textbook: never double a leading tone, a seventh or a chromatically altered note.
    sounds_once("I V7 I", "C", 1, "B");
    sounds_once("I V7 I", "C", 1, "F");
    sounds_once("I V I", "C", 1, "B");
    sounds_once("I V/7 I", "C", 1, "B");
    sounds_once("I viio I", "C", 1, "B");
    sounds_once("I IV iv I", "C", 2, "Ab");
    sounds_once("I V7/V V", "C", 1, "F#");
    sounds_once("I Ger6 I/5", "C", 1, "F#");
    sounds_once("I subV7 I", "C", 1, "Db");
}

#[test]
fn six_four_chords_double_their_bass() {
    // Textbook: the cadential six-four doubles its fifth.
    for variation in 0..VARIATIONS {
        let setting = set("ii I/5 V7 I", "C", variation);
        let fifths = setting.voicings[1]
            .pitches()
            .filter(|pitch| pitch.class == class("G"))
            .count();
        assert!(fifths >= 2, "{:?}", setting.voicings[1]);
    }
}

#[test]
fn progressions_of_the_books_come_out_clean_in_every_key() {
    for (text, in_key) in PROGRESSIONS {
        let mode = key(in_key).mode();
        for key in plagal::theory::Key::everyday().filter(|key| key.mode() == mode) {
            for variation in 0..4 {
                let setting = Setting::new(&line(text), key, variation)
                    .unwrap_or_else(|error| panic!("{error}"));
                let found = faults(&setting);
                assert_eq!(found.faults(), 0, "{text} in {key}, {variation}: {found:?}");
                assert!(found.largest_leap <= 7, "{text} in {key}: {found:?}");
                for chord in 0..setting.chords.len() - 1 {
                    assert!(moves(&setting, chord).len() >= 3);
                }
            }
        }
    }
}

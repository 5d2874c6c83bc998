//! What can be seen and heard of a question without hearing its harmony.
//!
//! Harmony is the intervals between the notes that sound, and where the bass goes in its
//! key. So pitch is given as a listener has it who hears how high and how wide a chord lies
//! and not yet which notes it has: to half an octave. The register and spread of the line
//! and of the chord are absolute; the chord's register against the line would be the way
//! of its bass.

use super::case::Subject;
use super::classifier::BUCKETS;
use crate::arranging::{Note, Passage, Span, Texture, Voice};
use crate::quiz::Hearing;
use crate::theory::{Chord, OCTAVE, TICKS_PER_BEAT};

/// How many things are looked at.
pub(super) const FEATURES: usize = 18;

/// The first so many are seen on the chart before anything sounds.
pub(super) const SEEN: usize = 11;

/// What they are, in order.
pub(super) const NAMES: [&str; FEATURES] = [
    "place of the chord",
    "chords after it",
    "chords in the line",
    "bars",
    "beat on which it begins",
    "its duration",
    "duration of the line",
    "tempo",
    "tonic",
    "texture",
    "number in the drill",
    "register",
    "spread",
    "loudness",
    "notes",
    "notes at once",
    "register of the line",
    "notes of the line",
];

/// How finely pitch is heard, in semitones.
const RESOLUTION: f64 = 6.0;

/// What is seen and heard, in buckets.
pub(super) fn seen(subject: &Subject<'_>) -> Option<[u8; FEATURES]> {
    let question = subject.question;
    let programme = question.programme(&Hearing::Line, true).ok()?;
    let chart = chart(subject);
    let mut lines = programme
        .parts
        .iter()
        .map(|part| sound(subject, &part.passage));
    let first = lines.next()??;
    // Of two lines that are compared, the difference is what tells.
    let heard = match lines.next() {
        None => first,
        Some(second) => {
            let second = second?;
            std::array::from_fn(|at| first[at] - second[at] + (BUCKETS / 2) as f64)
        }
    };
    let mut all = [0; FEATURES];
    let values = chart.into_iter().chain(heard);
    for (place, value) in all.iter_mut().zip(values) {
        *place = bucket(value);
    }
    Some(all)
}

/// The chord that is pointed at; the first one, which is named, where home is asked.
fn focus(subject: &Subject<'_>) -> usize {
    if subject.question.asks_for_home() {
        0
    } else {
        subject.focus()
    }
}

fn chart(subject: &Subject<'_>) -> [f64; SEEN] {
    let question = subject.question;
    let line = &question.progression.line;
    let focus = focus(subject);
    let slots = line.slots();
    let in_bar = line.start(focus) % question.meter().bar();
    let beats = |ticks: u32| f64::from(ticks) / f64::from(TICKS_PER_BEAT);
    let of_all = |texture: &Texture| *texture == question.texture;
    let texture = Texture::ALL.iter().position(of_all).unwrap_or_default();
    let minutes = f64::from(line.length()) / f64::from(TICKS_PER_BEAT) / f64::from(question.tempo);
    [
        focus as f64,
        (slots.len() - 1 - focus) as f64,
        slots.len() as f64,
        f64::from(line.bars()),
        beats(in_bar),
        beats(slots[focus].length),
        minutes * 30.0,
        f64::from(question.tempo) / 6.0,
        tonic(subject),
        texture as f64,
        f64::from(subject.index % subject.drill.questions.max(1)),
    ]
}

/// The tonic by its sound; where that is what is asked, the root of the first chord, which
/// is told.
fn tonic(subject: &Subject<'_>) -> f64 {
    let question = subject.question;
    let first = question.progression.line.numerals().next();
    let first = first.and_then(|numeral| Chord::new(numeral, question.key()).ok());
    let told = match first {
        Some(chord) if question.asks_for_home() => chord.root(),
        Some(_) | None => question.key().tonic(),
    };
    f64::from(told.chromatic().rem_euclid(OCTAVE))
}

fn sound(subject: &Subject<'_>, passage: &Passage) -> Option<[f64; FEATURES - SEEN]> {
    let focus = focus(subject);
    let at_focus = |span: &&Span| span.chord == focus;
    let span = passage.chords.iter().find(at_focus)?;
    let chord = Excerpt::of(passage, span.start, span.end)?;
    let whole = Excerpt::of(passage, 0, passage.length)?;
    Some([
        (chord.register - 36.0) / RESOLUTION,
        f64::from(chord.highest - chord.lowest) / RESOLUTION,
        chord.loudness * 40.0,
        chord.notes as f64,
        chord.at_once as f64,
        (whole.register - 36.0) / RESOLUTION,
        whole.notes as f64 / 4.0,
    ])
}

fn bucket(value: f64) -> u8 {
    value.round().clamp(0.0, (BUCKETS - 1) as f64) as u8
}

/// What a stretch of a passage is like, harmony aside. Drums do not count.
struct Excerpt {
    /// MIDI numbers.
    lowest: i32,
    highest: i32,
    /// The mean of all notes, as a MIDI number.
    register: f64,
    /// The mean strength, 0 to 1.
    loudness: f64,
    notes: usize,
    /// The most notes that begin together.
    at_once: usize,
}

impl Excerpt {
    fn of(passage: &Passage, start: u32, end: u32) -> Option<Self> {
        let within = |note: &&Note| {
            (start..end).contains(&note.start) && !matches!(note.voice, Voice::Drum(_))
        };
        let notes: Vec<&Note> = passage.notes.iter().filter(within).collect();
        let pitches = || notes.iter().map(|note| note.pitch.midi());
        let count = notes.len() as f64;
        let together = |note: &&Note| {
            let begin = |other: &&&Note| other.start == note.start;
            notes.iter().filter(begin).count()
        };
        Some(Self {
            lowest: pitches().min()?,
            highest: pitches().max()?,
            register: pitches().map(f64::from).sum::<f64>() / count,
            loudness: notes
                .iter()
                .map(|note| f64::from(note.strength))
                .sum::<f64>()
                / count,
            notes: notes.len(),
            at_once: notes.iter().map(together).max()?,
        })
    }
}

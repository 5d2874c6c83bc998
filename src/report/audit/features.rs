//! What can be seen and heard of a question without hearing its harmony.

use super::case::Subject;
use super::classifier::BUCKETS;
use crate::arranging::{Note, Passage, Voice};
use crate::quiz::Hearing;
use crate::theory::TICKS_PER_BEAT;

/// How many things are looked at.
pub(super) const FEATURES: usize = 22;

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
    "lowest note",
    "highest note",
    "mean register",
    "spread",
    "loudness",
    "notes",
    "notes at once",
    "register against the line",
    "spread against the line",
    "register of the line",
    "notes of the line",
];

/// Everything that is looked at, in buckets.
pub(super) fn seen(subject: &Subject<'_>) -> Option<[u8; FEATURES]> {
    let question = subject.question;
    let programme = question.programme(&Hearing::Line, false).ok()?;
    let passage = &programme.parts.first()?.passage;
    let line = &question.progression.line;
    let focus = subject.focus();
    let span = passage.chords.iter().find(|span| span.chord == focus)?;
    let chord = Stretch::of(passage, span.start, span.end)?;
    let whole = Stretch::of(passage, 0, passage.length)?;
    let others = mean_spread(passage)?;
    let in_bar = line.start(focus) % question.meter().bar();
    let beats = |ticks: u32| f64::from(ticks) / f64::from(TICKS_PER_BEAT);
    let texture = crate::arranging::Texture::ALL
        .iter()
        .position(|texture| *texture == question.texture)?;
    let values = [
        focus as f64,
        (line.slots().len() - 1 - focus) as f64,
        line.slots().len() as f64,
        f64::from(line.bars()),
        beats(in_bar),
        beats(span.end - span.start),
        passage.seconds(passage.length) / 2.0,
        f64::from(question.tempo) / 6.0,
        f64::from(question.key().tonic().chromatic().rem_euclid(12)),
        texture as f64,
        f64::from(subject.index % subject.drill.questions.max(1)),
        f64::from(chord.lowest - 36) / 2.0,
        f64::from(chord.highest - 55) / 2.0,
        chord.register - 48.0,
        f64::from(chord.highest - chord.lowest) / 2.0,
        chord.loudness * 40.0,
        chord.notes as f64,
        chord.at_once as f64,
        chord.register - whole.register + 24.0,
        f64::from(chord.highest - chord.lowest) - others + 24.0,
        whole.register - 48.0,
        whole.notes as f64 / 4.0,
    ];
    Some(values.map(bucket))
}

fn bucket(value: f64) -> u8 {
    value.round().clamp(0.0, (BUCKETS - 1) as f64) as u8
}

/// What a stretch of a passage is like, harmony aside. Drums do not count.
struct Stretch {
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

impl Stretch {
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

/// The mean spread of a passage's chords, in semitones.
fn mean_spread(passage: &Passage) -> Option<f64> {
    let spreads: Vec<f64> = passage
        .chords
        .iter()
        .filter_map(|span| Stretch::of(passage, span.start, span.end))
        .map(|chord| f64::from(chord.highest - chord.lowest))
        .collect();
    (!spreads.is_empty()).then(|| spreads.iter().sum::<f64>() / spreads.len() as f64)
}

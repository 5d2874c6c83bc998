//! Bossa nova: even eighths, a bass on one and three with an eighth before each, and
//! comping in a rhythm of two bars.

use super::part::{Groove, Segment, alternate, segments};
use super::{Card, Manner, Scene, Touch};

pub(super) const CARD: Card = Card {
    id: "bossa",
    title: "Bossa",
    about: "Even eighths, a bass of root and fifth, syncopated comping.",
    difficulty: 0.35,
    fair: true,
    tempos: (60, 184),
    bassist: false,
    manner: Manner::Full,
    lay,
};

/// When the chord is struck in a bar and in the one after it, in eighths from the
/// beginning: common practice, the second bar answering the first.
const RHYTHM: [&[u32]; 2] = [&[0, 3, 6], &[0, 3, 5]];

/// Eighths after which the bass strikes, and whether on the fifth.
const BASS: [(u32, bool); 4] = [(0, false), (3, true), (4, true), (7, false)];

fn lay(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::straight(scene.setting.meter);
    for segment in segments(scene.setting, groove) {
        bass(&segment, groove, touch);
        chords(&segment, groove, touch);
    }
}

fn bass(segment: &Segment, groove: Groove, touch: &mut Touch) {
    let starts: Vec<(u32, bool)> = BASS
        .into_iter()
        .filter(|(after, _)| segment.eighths(groove, *after) < segment.end)
        .collect();
    for (index, (after, fifth)) in starts.iter().enumerate() {
        let start = segment.eighths(groove, *after);
        let end = starts
            .get(index + 1)
            .map_or(segment.end, |(next, _)| segment.eighths(groove, *next));
        let pitch = if *fifth {
            alternate(segment.chord, segment.voicing)
        } else {
            segment.voicing.bass
        };
        let accent = if after % 4 == 0 { 1.0 } else { 0.85 };
        touch.bass(pitch, start, end, accent);
    }
}

fn chords(segment: &Segment, groove: Groove, touch: &mut Touch) {
    let bar = segment.start / groove.bar;
    let rhythm = RHYTHM[bar as usize % 2];
    for after in rhythm {
        let start = segment.eighths(groove, *after);
        let end = segment.eighths(groove, after + 2);
        if start < end {
            let accent = if *after == 0 { 1.0 } else { 0.92 };
            touch.upper(segment.voicing, start, end, accent);
        }
    }
}

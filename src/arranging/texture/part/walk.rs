//! A walking bass: a note on every beat, each chord's bass on its first, and a last note
//! that leads into the next chord.

use super::bass::reach;
use super::scale::{scale, spelled};
use super::{Groove, Segment};
use crate::arranging::chance::{Chance, Purpose};
use crate::arranging::texture::Touch;
use crate::theory::{Chord, IntervalClass, OCTAVE, Pitch, PitchClass};

/// How strong the notes between are, against the chord's own bass, which must stand out.
const BETWEEN: f32 = 0.82;

/// Plays the whole bass.
pub(in crate::arranging::texture) fn walk(segments: &[Segment], groove: Groove, touch: &mut Touch) {
    let mut chance = touch.chance(Purpose::Walking);
    for (index, segment) in segments.iter().enumerate() {
        let beats = segment.beats(groove);
        let target = segments.get(index + 1);
        let bass = target.map_or(segment.voicing.bass, |next| next.voicing.bass);
        let path = Path {
            chord: segment.chord,
            from: segment.voicing.bass,
            to: bass,
            // Before the same chord again the line goes round, before another it leads.
            leads: target.is_some_and(|next| next.index != segment.index),
        };
        let notes = path.find(beats.len(), &mut chance);
        for ((start, end), pitch) in beats.into_iter().zip(notes) {
            let accent = if start == segment.start { 1.0 } else { BETWEEN };
            touch.bass(pitch, start, end, accent);
        }
    }
}

/// From one bass note to the next.
struct Path<'a> {
    chord: &'a Chord,
    from: Pitch,
    to: Pitch,
    leads: bool,
}

/// What a note costs where it stands, in quarters of a semitone of motion.
const PASSING_ON_STRONG: i32 = 40;
const PASSING: i32 = 8;
const PLAIN_LAST: i32 = 6;

impl Path<'_> {
    /// The cheapest line of `count` notes, the first of them fixed. What is as good is
    /// drawn.
    fn find(&self, count: usize, chance: &mut Chance) -> Vec<Pitch> {
        let mut lines: Vec<Steps> = vec![Steps {
            notes: vec![self.from],
            cost: 0,
        }];
        for place in 1..count {
            let places = self.places(place, count);
            let costs: Vec<i32> = places
                .iter()
                .map(|(_, cost)| cost + chance.below(10))
                .collect();
            lines = places
                .iter()
                .zip(costs)
                .filter_map(|((pitch, _), cost)| best(&lines, *pitch, cost))
                .collect();
        }
        lines
            .into_iter()
            .min_by_key(|steps| steps.cost + self.arrival(steps))
            .map(|steps| steps.notes)
            .expect("every chord has a note in reach")
    }

    /// Which notes may stand at a place of the line, with their cost.
    fn places(&self, place: usize, count: usize) -> Vec<(Pitch, i32)> {
        let own = self.chord.notes();
        let passing = scale(self.chord);
        let last = self.leads && place + 1 == count;
        let leading = if last { leading(self.to.class) } else { vec![] };
        let strong = place.is_multiple_of(2);
        reach()
            .filter_map(|midi| {
                if let Some(pitch) = spelled(&leading, midi) {
                    return Some((pitch, 0));
                }
                if let Some(pitch) = spelled(&own, midi) {
                    return Some((pitch, if last { PLAIN_LAST } else { 0 }));
                }
                let cost = match (strong, last) {
                    (true, false) => PASSING_ON_STRONG,
                    (true, true) | (false, _) => PASSING,
                };
                spelled(&passing, midi).map(|pitch| (pitch, cost))
            })
            .collect()
    }

    /// What it costs to go on from the end of a line to the next bass note.
    fn arrival(&self, steps: &Steps) -> i32 {
        let last = steps.notes.last().expect("a line has a first note");
        motion(last.midi(), self.to.midi())
    }
}

/// The semitones on either side of a note, which lead to it, and its fifth.
fn leading(to: PitchClass) -> Vec<PitchClass> {
    vec![
        to.up(IntervalClass::from_fifths(5)),
        to.up(IntervalClass::MINOR_SECOND),
        to.up(IntervalClass::PERFECT_FIFTH),
    ]
}

#[derive(Clone)]
struct Steps {
    notes: Vec<Pitch>,
    cost: i32,
}

/// The cheapest steps on to a pitch.
fn best(lines: &[Steps], pitch: Pitch, cost: i32) -> Option<Steps> {
    let steps = lines
        .iter()
        .min_by_key(|steps| steps.cost + step(steps, pitch))?;
    let mut notes = steps.notes.clone();
    notes.push(pitch);
    Some(Steps {
        cost: steps.cost + step(steps, pitch) + cost,
        notes,
    })
}

fn step(steps: &Steps, pitch: Pitch) -> i32 {
    let count = steps.notes.len();
    let before = steps.notes[count - 1].midi();
    let returns = count >= 2 && steps.notes[count - 2].midi() == pitch.midi();
    motion(before, pitch.midi()) + if returns { 14 } else { 0 }
}

/// Steps are best, a note struck again worst but for a wide leap; an octave is a player's
/// favourite among leaps.
fn motion(from: i32, to: i32) -> i32 {
    match (to - from).abs() {
        0 => 30,
        size @ 1..=4 => 4 * (size - 1),
        size @ 5..=7 => 4 * size,
        OCTAVE => 28,
        size => 8 * size,
    }
}

//! An improvised line above the chords: chord notes on the beats, and between them notes
//! that pass, neighbour or lead, each left by a step.

use super::scale::{scale, spelled};
use super::{Groove, Segment};
use crate::arranging::chance::{Chance, Purpose};
use crate::arranging::motion::consecutive;
use crate::arranging::texture::Touch;
use crate::theory::{Pitch, Ticks};

/// The register of the line: G4 to G5.
const REGISTER: std::ops::RangeInclusive<i32> = 67..=79;

/// How strong a note is that is foreign to its chord: touched in passing, so that it does not
/// sound as a tension that the chord does not have.
const PASSING: f32 = 0.68;

/// What a beat of the line holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum RhythmCell {
    /// One note for the beat.
    Quarter,
    /// A note on the beat and one on the eighth after it.
    Eighths,
    /// The note before sounds on; after a rest, a rest.
    Hold,
    Rest,
}

impl RhythmCell {
    fn draw(chance: &mut Chance) -> Self {
        match chance.below(20) {
            0..8 => Self::Eighths,
            8..14 => Self::Quarter,
            14..17 => Self::Hold,
            _ => Self::Rest,
        }
    }
}

/// A beat of the line.
struct Beat<'a> {
    segment: &'a Segment<'a>,
    /// Whether a chord begins here.
    opens: bool,
    start: Ticks,
    end: Ticks,
    cell: RhythmCell,
    note: Option<Pitch>,
}

/// Plays the line as upper voice number `voice`.
pub(in crate::arranging::texture) fn improvise(
    segments: &[Segment],
    groove: Groove,
    voice: u8,
    touch: &mut Touch,
) {
    let mut chance = touch.chance(Purpose::Melody);
    let mut beats = plan(segments, groove, &mut chance);
    choose(&mut beats, &mut chance);
    play(&beats, groove, voice, touch);
}

fn plan<'a>(segments: &'a [Segment], groove: Groove, chance: &mut Chance) -> Vec<Beat<'a>> {
    let mut beats = Vec::new();
    let mut last = None;
    for segment in segments {
        for (start, end) in segment.beats(groove) {
            let opens = last.replace(segment.index) != Some(segment.index);
            // A new chord is answered with a note of its own or left to the comping; one
            // that comes between the beats is answered at once.
            let cell = match RhythmCell::draw(chance) {
                RhythmCell::Hold if opens => RhythmCell::Quarter,
                RhythmCell::Rest if opens && !groove.is_on_beat(start) => RhythmCell::Quarter,
                cell @ (RhythmCell::Hold
                | RhythmCell::Quarter
                | RhythmCell::Eighths
                | RhythmCell::Rest) => cell,
            };
            beats.push(Beat {
                segment,
                opens,
                start,
                end,
                cell,
                note: None,
            });
        }
    }
    beats
}

/// A chord note for every beat that has one: near the one before, now and then further.
fn choose(beats: &mut [Beat], chance: &mut Chance) {
    let mut before = 70 + chance.below(6);
    let mut outer: Option<(i32, i32)> = None;
    let coming = coming(beats);
    for (beat, coming) in beats.iter_mut().zip(coming) {
        let voicing = beat.segment.voicing;
        let (bass, comping) = (voicing.bass.midi(), voicing.top().midi());
        // Whether the highest voice would run in parallel with the bass.
        let parallel = |top: i32| {
            beat.opens
                && outer.is_some_and(|last| consecutive((last.0, bass), (last.1, top)).is_some())
        };
        if beat.cell == RhythmCell::Rest && parallel(comping) {
            beat.cell = RhythmCell::Quarter;
        }
        let mut top = comping;
        if matches!(beat.cell, RhythmCell::Quarter | RhythmCell::Eighths) {
            let wanted = before + chance.below(9) - 4;
            let chosen = REGISTER
                .filter_map(|midi| spelled(&beat.segment.chord.notes(), midi))
                .min_by_key(|pitch| {
                    let midi = pitch.midi();
                    let again = if midi == before { 2 } else { 0 };
                    let highest = midi.max(comping);
                    let fault = if parallel(highest) { 100 } else { 0 };
                    // The comping may come to lie above the line, which could not help it then.
                    let traps = coming.is_some_and(|(next_bass, next_top)| {
                        beat.opens && consecutive((bass, next_bass), (highest, next_top)).is_some()
                    });
                    let trap = if traps { 50 } else { 0 };
                    (midi - wanted).abs() + again + fault + trap
                })
                .expect("every chord has a note in an octave");
            before = chosen.midi();
            top = top.max(before);
            beat.note = Some(chosen);
        }
        if beat.opens {
            outer = Some((bass, top));
        }
    }
}

/// Bass and highest note of the comping of the next chord, for each beat.
fn coming(beats: &[Beat]) -> Vec<Option<(i32, i32)>> {
    let mut next = None;
    let mut coming: Vec<Option<(i32, i32)>> = Vec::with_capacity(beats.len());
    for beat in beats.iter().rev() {
        coming.push(next);
        if beat.opens {
            let voicing = beat.segment.voicing;
            next = Some((voicing.bass.midi(), voicing.top().midi()));
        }
    }
    coming.reverse();
    coming
}

fn play(beats: &[Beat], groove: Groove, voice: u8, touch: &mut Touch) {
    for (index, beat) in beats.iter().enumerate() {
        let Some(note) = beat.note else {
            continue;
        };
        let next = beats.get(index + 1);
        let middle = beat.start + groove.eighths(1);
        let divided = beat.cell == RhythmCell::Eighths && middle < beat.end;
        if divided {
            touch.line(voice, note, beat.start, middle, 1.0);
            let to = next.and_then(|next| next.note);
            let between = between(beat.segment, note, to);
            let own = beat.segment.chord.notes();
            let accent = match spelled(&own, between.midi()) {
                Some(_) => 0.9,
                None => PASSING,
            };
            touch.line(voice, between, middle, beat.end, accent);
        } else {
            // The next beat holds it, if it belongs to the same chord.
            let held = next.filter(|next| next.cell == RhythmCell::Hold && !next.opens);
            let end = held.map_or(beat.end, |held| held.end);
            touch.line(voice, note, beat.start, end, 1.0);
        }
    }
}

/// The note on the second half of a beat, on the way from one note to the next.
fn between(segment: &Segment, from: Pitch, to: Option<Pitch>) -> Pitch {
    let own = segment.chord.notes();
    let Some(to) = to else {
        // Nothing follows that could resolve a foreign note.
        return nearest(&own, from.midi(), from.midi()).unwrap_or(from);
    };
    let (one, other) = (from.midi(), to.midi());
    let passing = scale(segment.chord);
    let middle = match other - one {
        // A step or none: the neighbour on the far side of the next note.
        distance @ -2..=2 => other + if distance < 0 { -1 } else { 1 },
        distance @ (-4 | -3 | 3 | 4) => one + distance / 2,
        distance => other - distance.signum(),
    };
    let by_step = |pitch: &Pitch| (1..=2).contains(&(pitch.midi() - other).abs());
    let step = (middle - 1..=middle + 1)
        .filter(|midi| *midi != one && REGISTER.contains(midi))
        .filter_map(|midi| spelled(&passing, midi))
        .filter(by_step)
        .min_by_key(|pitch| (pitch.midi() - middle).abs());
    step.or_else(|| nearest(&own, middle, one)).unwrap_or(from)
}

/// The chord note nearest to a height, but for one.
fn nearest(own: &[crate::theory::PitchClass], height: i32, but: i32) -> Option<Pitch> {
    REGISTER
        .filter(|midi| *midi != but)
        .filter_map(|midi| spelled(own, midi))
        .min_by_key(|pitch| (pitch.midi() - height).abs())
}

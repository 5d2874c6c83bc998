//! A line set for a bass and upper voices, before any texture.

use std::ops::RangeInclusive;

use super::chance::{Chance, Purpose};
use super::leading::Path;
use super::manner::Manner;
use super::palette::Palette;
use super::passage::Span;
use super::register::BASS;
use super::voicing::Voicing;
use super::{bass, leading};
use crate::theory::{Chord, Key, Line, Meter, OCTAVE, Pitch, PitchClass, Ticks, TooRemote};

/// The chords of a line with their places in time and their voicings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setting {
    /// The metre of all bars.
    pub meter: Meter,
    /// The chords in order.
    pub chords: Vec<Chord>,
    /// When each of them sounds.
    pub spans: Vec<Span>,
    /// One a chord.
    pub voicings: Vec<Voicing>,
}

impl Setting {
    /// Sets a line in a key. The same `variation` gives the same voicings; another gives
    /// another opening and other choices where several are as good.
    ///
    /// # Errors
    /// If a numeral has no notes in the key.
    pub fn new(line: &Line, key: Key, variation: u64) -> Result<Self, TooRemote> {
        Self::in_manner(line, key, variation, Manner::Full)
    }

    /// As [`Self::new`], the chords taken in one manner.
    ///
    /// # Errors
    /// If a numeral has no notes in the key.
    pub fn in_manner(
        line: &Line,
        key: Key,
        variation: u64,
        manner: Manner,
    ) -> Result<Self, TooRemote> {
        let chords = line
            .numerals()
            .map(|numeral| Chord::new(numeral, key))
            .collect::<Result<Vec<Chord>, TooRemote>>()?;
        let voicings = voice(
            &chords,
            manner,
            &mut Chance::new(variation, Purpose::Voicing),
        );
        Ok(Self {
            meter: line.meter(),
            spans: spans(line),
            chords,
            voicings,
        })
    }

    /// Where the last chord ends, in ticks.
    #[must_use]
    pub fn length(&self) -> Ticks {
        self.spans.last().map_or(0, |span| span.end)
    }

    /// Each chord with its place and its voicing.
    pub fn parts(&self) -> impl Iterator<Item = (Span, &Chord, &Voicing)> {
        self.spans
            .iter()
            .zip(&self.chords)
            .zip(&self.voicings)
            .map(|((span, chord), voicing)| (*span, chord, voicing))
    }
}

fn spans(line: &Line) -> Vec<Span> {
    let mut start = 0;
    line.slots()
        .iter()
        .enumerate()
        .map(|(chord, slot)| {
            let span = Span {
                chord,
                start,
                end: start + slot.length,
            };
            start = span.end;
            span
        })
        .collect()
}

/// Where the bass lies by choice: an octave, in which every note has one place, raised by
/// some semitones. How many is drawn: were it always the lowest octave, how high a chord lies
/// would say which degree its bass is.
fn bass_register(raised: i32) -> RangeInclusive<i32> {
    let lowest = BASS.start() + raised;
    lowest..=lowest + OCTAVE - 1
}

/// The register of the bass is raised by up to a major third.
const BASS_SHIFTS: u16 = 5;
/// What one octave of a bass note may by chance cost more than the other; much less than
/// a seventh in place of a second.
const BASS_WHIM: u16 = 8;

fn voice(chords: &[Chord], manner: Manner, chance: &mut Chance) -> Vec<Voicing> {
    let palettes: Vec<Palette> = chords
        .iter()
        .map(|chord| manner.restrict(Palette::new(chord)))
        .collect();
    let classes: Vec<_> = chords.iter().map(Chord::bass).collect();
    let drawn = chance.below(BASS_SHIFTS);
    let mut best = lead(&classes, &palettes, drawn, manner, chance);
    // Over some basses a leading tone or a seventh is left open, because no hand on a guitar
    // can resolve it.
    for raised in 0..i32::from(BASS_SHIFTS) {
        if !best.1.leaves_open() {
            break;
        }
        let other = lead(&classes, &palettes, raised, manner, chance);
        if other.1.faults() < best.1.faults() {
            best = other;
        }
    }
    let (bass, way) = best;
    way.candidates
        .iter()
        .zip(&palettes)
        .zip(bass)
        .map(|((candidate, palette), bass)| Voicing {
            bass,
            upper: candidate.pitches(palette),
        })
        .collect()
}

/// A bass line and the best voices over it.
fn lead(
    classes: &[PitchClass],
    palettes: &[Palette],
    raised: i32,
    manner: Manner,
    chance: &mut Chance,
) -> (Vec<Pitch>, Path) {
    let register = bass_register(raised);
    let bass = bass::line(classes, &register, || chance.below(BASS_WHIM));
    let heights: Vec<i32> = bass.iter().map(|pitch| pitch.midi()).collect();
    let way = leading::lead(palettes, &heights, manner, chance);
    (bass, way)
}

//! A passage: timed, spelled notes, ready to be sounded or written to a file.

use crate::theory::{Pitch, TICKS_PER_BEAT, Ticks};

/// The part of the texture that a note belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Voice {
    /// The lowest voice.
    Bass,
    /// An upper voice, 0 the lowest.
    Upper(u8),
    /// Percussion; the note's pitch says nothing.
    Drum(Drum),
}

/// An instrument of the rhythm section that has no pitch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Drum {
    /// The ride cymbal, struck with the tip of the stick.
    Ride,
    /// The hi-hat closed with the foot, on two and four.
    HiHat,
    /// A tap of the brush on the snare drum.
    Tap,
    /// A stroke of the brush across the snare drum, as long as its note.
    Swirl,
    /// The bass drum, feathered.
    Kick,
}

impl Drum {
    /// All strokes and drums.
    pub const ALL: [Self; 5] = [Self::Ride, Self::HiHat, Self::Tap, Self::Swirl, Self::Kick];

    /// The key on the percussion channel, by General MIDI 1 and the brush set of General
    /// MIDI 2.
    #[must_use]
    pub const fn general_midi(self) -> u8 {
        match self {
            Self::Kick => 36,
            Self::Tap => 38,
            Self::Swirl => 40,
            Self::HiHat => 44,
            Self::Ride => 51,
        }
    }
}

/// One note: when, how long, how high and how strong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Note {
    /// When it begins, from the beginning of the passage.
    pub start: Ticks,
    /// How long it is held.
    pub length: Ticks,
    /// Its spelled pitch.
    pub pitch: Pitch,
    /// 0 (silent) to 1 (as strong as the sound goes); 0.6 is ordinary.
    pub strength: f32,
    /// The voice that plays it.
    pub voice: Voice,
}

/// Where one chord of the line sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span {
    /// Index of the chord in the line, from 0.
    pub chord: usize,
    /// When it begins, from the beginning of the passage.
    pub start: Ticks,
    /// When it ends: the first tick after it.
    pub end: Ticks,
}

/// Notes in time order, with the spans of the chords they belong to.
#[derive(Clone, Debug, PartialEq)]
pub struct Passage {
    /// Quarter notes a minute, 30 to 300.
    pub tempo: f32,
    /// The notes, by when they begin.
    pub notes: Vec<Note>,
    /// When each chord sounds.
    pub chords: Vec<Span>,
    /// Where the passage ends, in ticks; sound may ring on.
    pub length: Ticks,
    /// Whether a player of the bass has its part, whatever else is heard of the passage.
    pub bassist: bool,
}

/// One of the lines that can be followed through a passage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Strand {
    /// The bass alone.
    Bass,
    /// What lies between bass and top.
    Inner,
    /// The highest of the upper voices of each chord, or the melody.
    Top,
    /// What has no pitch.
    Percussion,
}

impl Passage {
    /// Seconds from the beginning to `ticks`.
    #[must_use]
    pub fn seconds(&self, ticks: Ticks) -> f64 {
        f64::from(ticks) / f64::from(TICKS_PER_BEAT) * 60.0 / f64::from(self.tempo)
    }

    /// The notes of one voice alone, at the same times.
    #[must_use]
    pub fn only(&self, voice: Voice) -> Self {
        let notes = self
            .notes
            .iter()
            .filter(|note| note.voice == voice)
            .copied()
            .collect();
        Self {
            notes,
            ..self.clone()
        }
    }

    /// One of the lines alone, at the same times.
    #[must_use]
    pub fn strand(&self, strand: Strand) -> Self {
        let chord = |note: &Note| {
            let within = |span: &Span| (span.start..span.end).contains(&note.start);
            self.chords.iter().position(within)
        };
        let number = |note: &Note| match note.voice {
            Voice::Upper(number) => Some(number),
            Voice::Bass | Voice::Drum(_) => None,
        };
        let mut highest = vec![None; self.chords.len() + 1];
        for note in &self.notes {
            let place = chord(note).unwrap_or(self.chords.len());
            highest[place] = highest[place].max(number(note));
        }
        let belongs = |note: &&Note| match strand {
            Strand::Bass => note.voice == Voice::Bass,
            Strand::Percussion => matches!(note.voice, Voice::Drum(_)),
            Strand::Inner | Strand::Top => number(note).is_some_and(|own| {
                let is_top = highest[chord(note).unwrap_or(self.chords.len())] == Some(own);
                is_top == (strand == Strand::Top)
            }),
        };
        Self {
            notes: self.notes.iter().filter(belongs).copied().collect(),
            ..self.clone()
        }
    }

    /// The same notes at `tempo` quarter notes a minute.
    #[must_use]
    pub fn at_tempo(&self, tempo: f32) -> Self {
        Self {
            tempo,
            ..self.clone()
        }
    }

    /// The stretch of one chord, moved to the beginning; empty if there is no such chord.
    #[must_use]
    pub fn chord(&self, chord: usize) -> Self {
        let Some(span) = self.chords.iter().find(|span| span.chord == chord).copied() else {
            return Self {
                notes: Vec::new(),
                chords: Vec::new(),
                length: 0,
                ..self.clone()
            };
        };
        let notes = self
            .notes
            .iter()
            .filter(|note| (span.start..span.end).contains(&note.start))
            .map(|note| Note {
                start: note.start - span.start,
                ..*note
            })
            .collect();
        let length = span.end - span.start;
        Self {
            notes,
            chords: vec![Span {
                chord,
                start: 0,
                end: length,
            }],
            length,
            ..self.clone()
        }
    }
}

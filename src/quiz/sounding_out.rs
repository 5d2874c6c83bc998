//! What to play: the key, the line, one chord, the bass, or the line with an answer in it.

use super::drill::KeyGiven;
use super::hearing::Hearing;
use super::question::Question;
use crate::arranging::{Arrangement, Passage, Texture, arrange, tonic_drone};
use crate::theory::{BareSix, Line, Meter, Mode, Ticks, TooRemote};
use std::ops::Range;

/// Passages to play one after another, with one sound.
#[derive(Clone, Debug, PartialEq)]
pub struct Programme {
    /// The passages in order.
    pub parts: Vec<Part>,
    /// The id of a sound.
    pub sound: String,
    /// Whether it takes up the line where it is sounding, if it does.
    pub takes_up: bool,
}

/// One passage of a programme.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What is played.
    pub passage: Passage,
    /// Whether its chords are the line's slots, to be followed on the chart.
    pub is_line: bool,
    /// What is repeated until something else is wanted; none: all of it, once.
    pub repeats: Option<Range<Ticks>>,
}

impl Part {
    /// A passage to be heard once.
    fn once(passage: Passage, is_line: bool) -> Self {
        Self {
            passage,
            is_line,
            repeats: None,
        }
    }
}

/// The tempo of the cadence, in quarter notes a minute.
const CADENCE_TEMPO: f32 = 108.0;

/// How much slower the slow hearing is.
const SLOWER: f32 = 2.0 / 3.0;

/// Beats for which a tonic is held to set the key.
const TONIC_BEATS: u32 = 4;

impl Question {
    /// What to play for a hearing. While a question that compares two lines is `open`, both
    /// are heard, so that neither stands out.
    ///
    /// # Errors
    /// If a chord is too remote from the key to be spelled, which only an answer can be.
    pub fn programme(&self, hearing: &Hearing, open: bool) -> Result<Programme, TooRemote> {
        let whole = |passage| passage;
        let only = |part| vec![part];
        let parts = match hearing {
            Hearing::Question => {
                let key = self.key_part(self.key_given)?;
                key.into_iter().chain(self.lines(open, whole)?).collect()
            }
            Hearing::Line => self.lines(open, whole)?,
            Hearing::Slower => self.lines(open, |passage| {
                let tempo = (passage.tempo * SLOWER).max(30.0);
                passage.at_tempo(tempo)
            })?,
            Hearing::Strand(strand) => self.lines(open, |passage| passage.strand(*strand))?,
            Hearing::Slot(_) | Hearing::Loop { .. } if open && self.other.is_some() => Vec::new(),
            Hearing::Slot(slot) => {
                let passage = self.passage(&self.progression.line)?.chord(*slot);
                only(Part::once(passage, true))
            }
            Hearing::Loop { from, to } => only(self.repeated(*from, *to)?),
            Hearing::Key => self.key_part(KeyGiven::Cadence)?.into_iter().collect(),
            Hearing::Other => match &self.other {
                Some(other) => {
                    let passage = self.passage(&other.progression.line)?;
                    only(Part::once(passage, false))
                }
                None => Vec::new(),
            },
            Hearing::With(line) => only(Part::once(self.passage(line)?, true)),
            Hearing::Instead(hearing) => {
                let programme = self.programme(hearing, open)?;
                return Ok(Programme {
                    takes_up: true,
                    ..programme
                });
            }
        };
        Ok(Programme {
            parts,
            sound: self.sound.clone(),
            takes_up: false,
        })
    }

    /// The line, and the one it is compared with while that is open, each changed alike.
    fn lines(
        &self,
        open: bool,
        change: impl Fn(Passage) -> Passage,
    ) -> Result<Vec<Part>, TooRemote> {
        let passage = change(self.passage(&self.progression.line)?);
        let mut parts = vec![Part::once(passage, true)];
        if let (true, Some(other)) = (open, &self.other) {
            let passage = change(self.passage(&other.progression.line)?);
            let place = if other.is_first { 0 } else { 1 };
            parts.insert(place, Part::once(passage, false));
        }
        Ok(parts)
    }

    /// The line from one chord to another, over and over.
    fn repeated(&self, from: usize, to: usize) -> Result<Part, TooRemote> {
        let passage = self.passage(&self.progression.line)?;
        let spans = passage.chords.iter();
        let within = spans.filter(|span| (from..=to).contains(&span.chord));
        let start = within.clone().map(|span| span.start).min();
        let end = within.map(|span| span.end).max();
        Ok(Part {
            passage,
            is_line: true,
            repeats: start.zip(end).map(|(start, end)| start..end),
        })
    }

    fn passage(&self, line: &Line) -> Result<Passage, TooRemote> {
        let request = Arrangement {
            texture: self.texture,
            tempo: f32::from(self.tempo),
            variation: self.seed,
        };
        arrange(line, self.key(), &request)
    }

    fn key_part(&self, given: KeyGiven) -> Result<Option<Part>, TooRemote> {
        let passage = match given {
            KeyGiven::Nothing => return Ok(None),
            KeyGiven::Tonic => tonic_drone(self.key(), CADENCE_TEMPO, TONIC_BEATS),
            KeyGiven::Cadence => {
                let text = match self.key().mode() {
                    Mode::Major => "I IV | V7 I",
                    Mode::Minor => "i iv | V7 i",
                };
                let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth)
                    .expect("the cadence is a line");
                let request = Arrangement {
                    texture: Texture::HeldChords,
                    tempo: CADENCE_TEMPO,
                    variation: 0,
                };
                arrange(&line, self.key(), &request)?
            }
        };
        Ok(Some(Part::once(passage, false)))
    }
}

//! What to play: the key, the line, one chord, the bass, or the line with an answer in it.

use super::drill::KeyGiven;
use super::question::Question;
use crate::arranging::{Arrangement, Passage, Texture, Voice, arrange, tonic_drone};
use crate::theory::{BareSix, Line, Meter, Mode, Numeral, TooRemote};

/// Passages to play one after another, with one sound.
#[derive(Clone, Debug, PartialEq)]
pub struct Programme {
    pub parts: Vec<Part>,
    /// The id of a sound.
    pub sound: String,
}

/// One passage of a programme.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    pub passage: Passage,
    /// Whether its chords are the line's slots, to be followed on the chart.
    pub is_line: bool,
}

/// What the pupil wants to hear.
#[derive(Clone, Debug, PartialEq)]
pub enum Hearing {
    /// The key as the exercise gives it, then the line.
    Question,
    /// The line alone.
    Line,
    /// The line at two thirds of its tempo.
    Slower,
    /// The line's bass alone.
    Bass,
    /// One chord.
    Slot(usize),
    /// The cadence that sets the key.
    Key,
    /// The other line, in questions that compare two.
    Other,
    /// The line with a numeral put in a slot.
    With { slot: usize, numeral: Numeral },
}

/// The tempo of the cadence, in quarter notes a minute.
const CADENCE_TEMPO: f32 = 108.0;

/// How much slower the slow hearing is.
const SLOWER: f32 = 2.0 / 3.0;

/// Beats for which a tonic is held to set the key.
const TONIC_BEATS: u32 = 4;

impl Question {
    /// What to play for a hearing.
    ///
    /// # Errors
    /// If a chord is too remote from the key to be spelled, which only an answer can be.
    pub fn programme(&self, hearing: &Hearing) -> Result<Programme, TooRemote> {
        let line = || self.passage(&self.progression.line);
        let of_line = |passage| Part {
            passage,
            is_line: true,
        };
        let parts = match hearing {
            Hearing::Question => {
                let key = self.key_part(self.key_given)?;
                let mut parts: Vec<Part> = key.into_iter().chain([of_line(line()?)]).collect();
                if let Some(other) = &self.other {
                    parts.push(Part {
                        passage: self.passage(&other.line)?,
                        is_line: false,
                    });
                }
                parts
            }
            Hearing::Line => vec![of_line(line()?)],
            Hearing::Slower => {
                let passage = line()?;
                let tempo = (passage.tempo * SLOWER).max(30.0);
                vec![of_line(passage.at_tempo(tempo))]
            }
            Hearing::Bass => vec![of_line(line()?.only(Voice::Bass))],
            Hearing::Slot(slot) => vec![of_line(line()?.chord(*slot))],
            Hearing::Key => self.key_part(KeyGiven::Cadence)?.into_iter().collect(),
            Hearing::Other => match &self.other {
                Some(other) => vec![Part {
                    passage: self.passage(&other.line)?,
                    is_line: false,
                }],
                None => Vec::new(),
            },
            Hearing::With { slot, numeral } => {
                let line = self.progression.line.with(*slot, numeral.clone());
                vec![of_line(self.passage(&line)?)]
            }
        };
        Ok(Programme {
            parts,
            sound: self.sound.clone(),
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
        Ok(Some(Part {
            passage,
            is_line: false,
        }))
    }
}

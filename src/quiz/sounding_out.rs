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
    /// What to play for a hearing. While a question that compares two lines is `open`, both
    /// are heard, so that neither stands out.
    ///
    /// # Errors
    /// If a chord is too remote from the key to be spelled, which only an answer can be.
    pub fn programme(&self, hearing: &Hearing, open: bool) -> Result<Programme, TooRemote> {
        let lines = |change: &dyn Fn(Passage) -> Passage| {
            let passage = change(self.passage(&self.progression.line)?);
            let mut parts = vec![Part {
                passage,
                is_line: true,
            }];
            if let (true, Some(other)) = (open, &self.other) {
                let passage = change(self.passage(&other.progression.line)?);
                let place = if other.is_first { 0 } else { 1 };
                parts.insert(
                    place,
                    Part {
                        passage,
                        is_line: false,
                    },
                );
            }
            Ok(parts)
        };
        let whole = |passage| passage;
        let parts = match hearing {
            Hearing::Question => {
                let key = self.key_part(self.key_given)?;
                key.into_iter().chain(lines(&whole)?).collect()
            }
            Hearing::Line => lines(&whole)?,
            Hearing::Slower => {
                lines(&|passage| passage.at_tempo((passage.tempo * SLOWER).max(30.0)))?
            }
            Hearing::Bass => lines(&|passage| passage.only(Voice::Bass))?,
            Hearing::Slot(_) if open && self.other.is_some() => Vec::new(),
            Hearing::Slot(slot) => {
                let passage = self.passage(&self.progression.line)?.chord(*slot);
                vec![Part {
                    passage,
                    is_line: true,
                }]
            }
            Hearing::Key => self.key_part(KeyGiven::Cadence)?.into_iter().collect(),
            Hearing::Other => match &self.other {
                Some(other) => {
                    let passage = self.passage(&other.progression.line)?;
                    vec![Part {
                        passage,
                        is_line: false,
                    }]
                }
                None => Vec::new(),
            },
            Hearing::With { slot, numeral } => {
                let line = self.progression.line.with(*slot, numeral.clone());
                vec![Part {
                    passage: self.passage(&line)?,
                    is_line: true,
                }]
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

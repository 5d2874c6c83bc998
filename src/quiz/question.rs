//! A question: a line, how it sounds, and what is asked of it with the truth.

use super::ask::Ask;
use super::drill::KeyGiven;
use super::kind::QuestionKind;
use super::material::{Material, Other};
use super::prompt::Prompt;
use crate::arranging::Texture;
use crate::devices::DeviceId;
use crate::harmony::Progression;
use crate::theory::{Key, Meter, Notation};

/// A question, complete with its truth.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The kind of the question.
    pub kind: QuestionKind,
    /// The seed that it was made from.
    pub seed: u64,
    /// The device that it was made for.
    pub wanted: DeviceId,
    /// What the pupil is asked to do.
    pub prompt: Prompt,
    /// The line with its truth.
    pub progression: Progression,
    /// A second line to compare the first with, in the kinds that have one.
    pub other: Option<Other>,
    /// Slots whose numerals are shown from the beginning.
    pub given: Vec<usize>,
    /// Slots that are pointed at without being asked for their numerals.
    pub pointed: Vec<usize>,
    /// What is asked, in order; never empty.
    pub asks: Vec<Ask>,
    /// How the key is made known.
    pub key_given: KeyGiven,
    /// Quarter notes a minute.
    pub tempo: u16,
    /// The id of the sound.
    pub sound: String,
    /// How it is laid out.
    pub texture: Texture,
}

impl Question {
    /// The home key.
    #[must_use]
    pub fn key(&self) -> Key {
        self.progression.key
    }

    /// The metre of the line.
    #[must_use]
    pub fn meter(&self) -> Meter {
        self.progression.line.meter()
    }

    /// Whether the key itself is asked.
    #[must_use]
    pub fn asks_for_home(&self) -> bool {
        self.asks.iter().any(|ask| ask.asks_key())
    }

    /// The most answers on offer for anything that is asked; 0 when answers are typed.
    #[must_use]
    pub fn answers(&self) -> usize {
        self.asks
            .iter()
            .map(|ask| ask.labels(Notation::Text).len())
            .max()
            .unwrap_or(0)
    }

    /// What is asked about a slot.
    #[must_use]
    pub fn ask_at(&self, slot: usize) -> Option<usize> {
        self.asks.iter().position(|ask| ask.slot() == Some(slot))
    }

    /// What marking and diagnosing an answer need of it.
    #[must_use]
    pub fn material(&self) -> Material<'_> {
        Material {
            progression: &self.progression,
            wanted: &self.wanted,
            other: self.other.as_ref(),
            pointed: &self.pointed,
            texture: self.texture,
        }
    }

    /// Whether a slot is part of what is asked, under whatever form: as the chord of an
    /// answer or as one that is pointed at.
    #[must_use]
    pub fn points_at(&self, slot: usize) -> bool {
        self.pointed.contains(&slot) || self.asks.iter().any(|ask| ask.points_at(slot))
    }

    /// What is asked by one of its asks, in a sentence.
    #[must_use]
    pub fn prompt_of(&self, ask: &Ask, notation: Notation) -> String {
        let own = ask.prompt(&self.progression.line);
        let own = own.filter(|_| self.asks.len() > 1);
        own.unwrap_or_else(|| self.prompt.written(notation))
    }

    /// How the answers are typed where there are nothing but lines of text.
    #[must_use]
    pub fn instruction(&self) -> &'static str {
        self.asks.first().map_or("", |ask| ask.instruction())
    }
}

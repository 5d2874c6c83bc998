//! A question: a line, how it sounds, and what is asked of it with the truth.

use std::ops::RangeInclusive;

use rand::{Rng, RngExt};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use super::aim::{Aim, inverted};
use super::answer::{Answer, Form};
use super::drill::{Drill, KeyGiven};
use super::kinds::QuestionKind;
use super::spellings::either_spelling;
use crate::arranging::Texture;
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::{Progression, Refusal, Request, Sounding, progression};
use crate::theory::{Key, Meter, Notation, Symbol, TooRemote};

/// The truth that an answer is marked against.
#[derive(Clone, Debug, PartialEq)]
pub enum Truth {
    Chord(Box<Sounding>),
    Choice(usize),
    Key(Key),
    /// Slots in ascending order.
    Slots(Vec<usize>),
}

/// One thing that is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    /// The slot that is asked about, if one is.
    pub slot: Option<usize>,
    pub form: Form,
    pub truth: Truth,
    /// The devices whose hearing it tests.
    pub devices: Vec<DeviceId>,
    /// Where the answers on offer are devices, their ids in the same order.
    pub offered: Vec<DeviceId>,
}

impl Ask {
    /// The truth as it is shown.
    #[must_use]
    pub fn truth_written(&self, notation: Notation) -> String {
        let answer = match &self.truth {
            Truth::Chord(sounding) => return sounding.usual().written(notation),
            Truth::Choice(index) => Answer::Choice(*index),
            Truth::Key(key) => Answer::Key(*key),
            Truth::Slots(slots) => Answer::Slots(slots.clone()),
        };
        answer.written(&self.form, notation)
    }
}

/// What the pupil is asked to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Prompt {
    Plain(String),
    /// The key is asked, and the first chord is named.
    HomeFrom(Symbol),
}

impl Prompt {
    /// The sentence.
    #[must_use]
    pub fn written(&self, notation: Notation) -> String {
        match self {
            Self::Plain(sentence) => sentence.clone(),
            Self::HomeFrom(symbol) => {
                let names = either_spelling(*symbol);
                let names: Vec<String> = names.iter().map(|name| name.written(notation)).collect();
                let first = names.join(" or ");
                format!("The first chord is {first}. Which key is home?")
            }
        }
    }
}

/// A second line.
#[derive(Clone, Debug, PartialEq)]
pub struct Other {
    pub progression: Progression,
    /// Whether it is heard before the line that holds the wanted device.
    pub is_first: bool,
}

/// A question, complete with its truth.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    pub kind: QuestionKind,
    pub seed: u64,
    pub wanted: DeviceId,
    pub prompt: Prompt,
    pub progression: Progression,
    /// A second line to compare the first with, in the kinds that have one.
    pub other: Option<Other>,
    /// Slots whose numerals are shown from the beginning.
    pub given: Vec<usize>,
    /// Slots that are pointed at without being asked for their numerals.
    pub pointed: Vec<usize>,
    pub asks: Vec<Ask>,
    pub key_given: KeyGiven,
    /// Quarter notes a minute.
    pub tempo: u16,
    pub sound: String,
    pub texture: Texture,
}

/// Why a question cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub enum NoQuestion {
    Refused(Refusal),
    /// No key of the drill has a mode in which the device is met.
    NoKey(DeviceId),
    /// Nothing gives the key, and no line with the device comes home by its dominant.
    NoHome(DeviceId),
    /// The kind cannot ask about the device.
    Unsuited {
        kind: QuestionKind,
        device: DeviceId,
    },
    TooRemote(TooRemote),
}

impl std::fmt::Display for NoQuestion {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Refused(refusal) => refusal.fmt(f),
            Self::NoKey(device) => {
                write!(
                    f,
                    "no key of the exercise has the mode of device `{device}`"
                )
            }
            Self::NoHome(device) => {
                write!(
                    f,
                    "the key is not given, and no line with device `{device}` tells it by V and I"
                )
            }
            Self::Unsuited { kind, device } => {
                write!(
                    f,
                    "question kind `{kind}` cannot ask about device `{device}`"
                )
            }
            Self::TooRemote(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for NoQuestion {}

impl From<Refusal> for NoQuestion {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

/// How a question's line is to be heard.
struct Performed {
    tempo: u16,
    sound: String,
    texture: Texture,
}

impl Performed {
    /// A question of which nothing is asked yet.
    fn question(
        &self,
        drill: &Drill,
        wanted: &DeviceId,
        progression: Progression,
        seed: u64,
    ) -> Question {
        Question {
            kind: drill.kind,
            seed,
            wanted: wanted.clone(),
            prompt: Prompt::Plain(String::new()),
            progression,
            other: None,
            given: Vec::new(),
            pointed: Vec::new(),
            asks: Vec::new(),
            key_given: drill.key_given,
            tempo: self.tempo,
            sound: self.sound.clone(),
            texture: self.texture,
        }
    }
}

/// Draws of key and length before a refusal is final.
const DRAWS: usize = 12;

impl Question {
    /// The question that a seed makes: the same on every machine.
    ///
    /// # Errors
    /// If no line of the drill can hold the wanted device.
    pub fn new(
        drill: &Drill,
        catalogue: &Catalogue,
        wanted: &DeviceId,
        seed: u64,
    ) -> Result<Self, NoQuestion> {
        Self::aimed(drill, catalogue, wanted, &Aim::default(), seed)
    }

    /// The question that a seed and an aim make: the same on every machine.
    ///
    /// # Errors
    /// If no line of the drill can hold the wanted device.
    pub fn aimed(
        drill: &Drill,
        catalogue: &Catalogue,
        wanted: &DeviceId,
        aim: &Aim,
        seed: u64,
    ) -> Result<Self, NoQuestion> {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let modes = catalogue
            .get(wanted)
            .map(|device| device.modes.clone())
            .unwrap_or_default();
        let keys: Vec<Key> = drill
            .keys
            .iter()
            .copied()
            .filter(|key| modes.contains(&key.mode()))
            .collect();
        if keys.is_empty() {
            return Err(NoQuestion::NoKey(wanted.clone()));
        }
        let tempo = aim.tempo(drill, &mut random);
        let performed = Performed {
            tempo,
            sound: aim.sound(drill, &mut random),
            texture: aim.texture(drill, tempo, &mut random),
        };
        let mut refusal = NoQuestion::NoKey(wanted.clone());
        let mut lines: Vec<Progression> = Vec::new();
        for draw in 0..DRAWS {
            // A key that should stay must not be what keeps the question from being made.
            let free = Aim::default();
            let aim = if draw < DRAWS / 2 { aim } else { &free };
            let request = Request {
                wanted,
                company: &drill.devices,
                never: &drill.never,
                key: aim.key(&keys, &mut random),
                meter: drill.meter,
                bars: length(&drill.bars, draw, &mut random),
                styles: &drill.styles,
            };
            match progression(&request, catalogue, random.random()) {
                Ok(line) if drill.tells_key() || line.comes_home() => lines.push(line),
                Ok(_) => refusal = NoQuestion::NoHome(wanted.clone()),
                Err(error) => refusal = NoQuestion::from(error),
            }
            if lines.len() < aim.lines() && draw + 1 < DRAWS {
                continue;
            }
            // What is asked is made for the nearest line alone, unless the kind refuses it.
            let away = |line: &Progression| aim.away(inverted(line));
            lines.sort_by(|one, other| away(one).total_cmp(&away(other)));
            for line in lines.drain(..) {
                let mut question = performed.question(drill, wanted, line, seed);
                match drill.kind.ask(&mut question, drill, catalogue, &mut random) {
                    Ok(()) => return Ok(question),
                    Err(error) => refusal = error,
                }
            }
        }
        Err(refusal)
    }

    #[must_use]
    pub fn key(&self) -> Key {
        self.progression.key
    }

    #[must_use]
    pub fn meter(&self) -> Meter {
        self.progression.line.meter()
    }

    /// Whether the key itself is asked.
    #[must_use]
    pub fn asks_for_home(&self) -> bool {
        self.asks
            .iter()
            .any(|ask| matches!(ask.truth, Truth::Key(_)))
    }

    /// The most answers on offer for anything that is asked; 0 when answers are typed.
    #[must_use]
    pub fn answers(&self) -> usize {
        self.asks
            .iter()
            .map(|ask| ask.form.offers())
            .max()
            .unwrap_or(0)
    }

    /// What is asked about a slot.
    #[must_use]
    pub fn ask_at(&self, slot: usize) -> Option<usize> {
        self.asks.iter().position(|ask| ask.slot == Some(slot))
    }
}

/// A length that phrases have: mostly whole fours, sometimes other even ones. Odd ones come
/// where nothing else is allowed, or where the others have been refused so often that the
/// device may need one.
fn length(bars: &RangeInclusive<u32>, draw: usize, random: &mut ChaCha8Rng) -> u32 {
    let steps: &[u32] = if draw >= DRAWS / 2 {
        &[1]
    } else if random.random_bool(0.8) {
        &[4, 2, 1]
    } else {
        &[2, 1]
    };
    for step in steps {
        let lengths: Vec<u32> = bars.clone().filter(|bars| bars % step == 0).collect();
        if !lengths.is_empty() {
            return *pick(&lengths, random);
        }
    }
    *bars.start()
}

/// The seed of a drill's question number `index`, from 0.
#[must_use]
pub fn question_seed(drill: u64, index: u32) -> u64 {
    // A stream of its own for every question, so that none depends on the ones before.
    let mut random = ChaCha8Rng::seed_from_u64(drill);
    random.set_stream(u64::from(index));
    random.random()
}

fn pick<'t, T>(things: &'t [T], random: &mut impl Rng) -> &'t T {
    &things[random.random_range(0..things.len())]
}

//! Makes the question of a seed: its line, how it sounds, and what its kind asks of it.

use std::ops::RangeInclusive;

use rand::{Rng, RngExt};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use super::aim::{Aim, inverted};
use super::drill::Drill;
use super::kinds::ask;
use super::no_question::NoQuestion;
use super::prompt::Prompt;
use super::question::Question;
use crate::arranging::Texture;
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::{Progression, Request, progression};
use crate::theory::Key;

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
                phrasing: drill.phrasing,
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
                match ask(&mut question, drill, catalogue, &mut random) {
                    Ok(()) => return Ok(question),
                    Err(error) => refusal = error,
                }
            }
        }
        Err(refusal)
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

//! What a question should be like, as far as its drill leaves a choice: how hard, and in
//! which key and sound.

use std::ops::RangeInclusive;

use rand::RngExt;
use rand_chacha::ChaCha8Rng;

use super::drill::Drill;
use super::question::Question;
use crate::arranging::Texture;
use crate::harmony::Progression;
use crate::theory::Key;

/// The tempos between which a chord's time goes from ample to scant.
const SLOW: f64 = 60.0;
const FAST: f64 = 200.0;

/// So large a part of the drill's tempos is left to chance on either side of the one
/// aimed at, so that the tempo does not tell the device.
const LOOSE: f64 = 0.25;

/// What makes an exemplar easy (0) or hard (1) to hear, apart from its device.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hardness {
    /// The part of the chords whose bass is not their root.
    pub inversion: f64,
    /// How far the texture hides the chords.
    pub texture: f64,
    /// How little time each chord has.
    pub tempo: f64,
}

impl Hardness {
    /// The easiest and the hardest that a drill can ask for. How many chords are inverted
    /// is the devices' matter; half of them seldom are.
    #[must_use]
    pub fn bounds(drill: &Drill) -> (Self, Self) {
        let textures = || drill.textures.iter().map(|texture| of_texture(*texture));
        let easiest = Self {
            inversion: 0.0,
            texture: textures().fold(1.0, f64::min),
            tempo: of_tempo(*drill.tempo.start()),
        };
        let hardest = Self {
            inversion: 0.5,
            texture: textures().fold(0.0, f64::max),
            tempo: of_tempo(*drill.tempo.end()),
        };
        (easiest, hardest)
    }

    /// How hard a question turned out.
    #[must_use]
    pub fn of(question: &Question) -> Self {
        let inverted = inverted(&question.progression);
        Self::new(inverted, question.texture, question.tempo)
    }

    /// How hard a line is of which this part of the chords, 0 to 1, is inverted; the tempo
    /// in quarter notes a minute.
    #[must_use]
    pub fn new(inverted: f64, texture: Texture, tempo: u16) -> Self {
        Self {
            inversion: inverted,
            texture: of_texture(texture),
            tempo: of_tempo(tempo),
        }
    }
}

fn of_texture(texture: Texture) -> f64 {
    f64::from(texture.card().difficulty)
}

fn of_tempo(tempo: u16) -> f64 {
    ((f64::from(tempo) - SLOW) / (FAST - SLOW)).clamp(0.0, 1.0)
}

/// The part of the chords whose bass is not their root, 0 to 1.
pub(super) fn inverted(progression: &Progression) -> f64 {
    let line = &progression.line;
    let inverted = line
        .numerals()
        .filter(|numeral| numeral.sounding_bass() != numeral.root())
        .count();
    inverted as f64 / line.slots().len().max(1) as f64
}

/// The textures that suit a tempo; all of them if none does.
fn suited(textures: &[Texture], tempo: u16) -> Vec<Texture> {
    let suit = |texture: &Texture| texture.suits(tempo);
    let suited: Vec<Texture> = textures.iter().copied().filter(suit).collect();
    if suited.is_empty() {
        textures.to_vec()
    } else {
        suited
    }
}

/// Key and sound of an earlier question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held {
    /// The key to stay in.
    pub key: Key,
    /// The id of the sound to stay with.
    pub sound: String,
}

/// What a question should be like. The drill always wins: nothing is asked that it does
/// not allow.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Aim {
    /// Without it, as chance has it.
    pub hardness: Option<Hardness>,
    /// Key and sound that should stay.
    pub held: Option<Held>,
    /// The device is to be explained before it is asked.
    pub explain: bool,
}

impl Aim {
    /// How many lines are made, for the one that is nearest to the aim.
    #[must_use]
    pub fn lines(&self) -> usize {
        if self.hardness.is_some() { 2 } else { 1 }
    }

    /// How far a line lies from the aim of which this part of the chords is inverted.
    #[must_use]
    pub fn away(&self, inverted: f64) -> f64 {
        self.hardness
            .map_or(0.0, |aim| (inverted - aim.inversion).abs())
    }

    /// A tempo of the drill near the one aimed at, in quarter notes a minute.
    pub fn tempo(&self, drill: &Drill, random: &mut ChaCha8Rng) -> u16 {
        random.random_range(self.tempos(&drill.tempo))
    }

    fn tempos(&self, all: &RangeInclusive<u16>) -> RangeInclusive<u16> {
        let Some(aim) = self.hardness else {
            return all.clone();
        };
        let (slowest, fastest) = (f64::from(*all.start()), f64::from(*all.end()));
        let middle = (SLOW + aim.tempo * (FAST - SLOW)).clamp(slowest, fastest);
        let loose = LOOSE * (fastest - slowest);
        let within = |tempo: f64| tempo.clamp(slowest, fastest).round() as u16;
        within(middle - loose)..=within(middle + loose)
    }

    /// A texture of the drill that suits the tempo, from the half of those that comes
    /// nearest to the aim.
    pub fn texture(&self, drill: &Drill, tempo: u16, random: &mut ChaCha8Rng) -> Texture {
        let mut textures = suited(&drill.textures, tempo);
        if let Some(aim) = self.hardness {
            let away = |texture: &Texture| (of_texture(*texture) - aim.texture).abs();
            textures.sort_by(|one, other| away(one).total_cmp(&away(other)));
            textures.truncate(textures.len().div_ceil(2));
        }
        textures[random.random_range(0..textures.len())]
    }

    /// The sound that should stay, or any of the drill's.
    pub(super) fn sound(&self, drill: &Drill, random: &mut ChaCha8Rng) -> String {
        let any = &drill.sounds[random.random_range(0..drill.sounds.len())];
        match &self.held {
            Some(held) if drill.sounds.contains(&held.sound) => held.sound.clone(),
            _ => any.clone(),
        }
    }

    /// The key that should stay, or any of these.
    pub(super) fn key(&self, keys: &[Key], random: &mut ChaCha8Rng) -> Key {
        let any = keys[random.random_range(0..keys.len())];
        match &self.held {
            Some(held) if keys.contains(&held.key) => held.key,
            _ => any,
        }
    }
}

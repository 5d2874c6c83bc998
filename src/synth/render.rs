//! From a passage to samples. Owns what sounds when, the mix and the final level.

use fundsp::MAX_BUFFER_SIZE;
use fundsp::prelude32::{AudioUnit, BufferArray, Net, U1, U2};

use super::loudness::loudness;
use super::peaks::limit;
use super::reverb::{SECONDS as ROOM_SECONDS, room};
use super::sound::Sound;
use super::spectrum::factor;
use super::voice::{Order, Voice, Workshop};
use crate::arranging::{Passage, Voice as ArrangedVoice};

/// The loudness of every phrase in LUFS: moderate, well below what speakers can do.
pub const LOUDNESS: f64 = -20.0;
/// No true peak is above this, in dBTP (EBU R 128 asks for at most −1).
pub const CEILING: f64 = -1.0;
/// Distance kept from the ceiling for the roughness of peak meters, in decibels.
const MARGIN: f64 = 0.15;
/// Part of the room's time that is rendered after the last release.
const TAIL: f64 = 0.75;
/// Seconds of the fade to nothing at the end of the tail.
const FADE: f64 = 0.06;

/// How to render.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Frames a second, 8 000 to 192 000.
    pub rate: u32,
    /// The frequency of A4 in hertz, 430 to 450; 440 by ISO 16.
    pub a4: f64,
    /// Loudness of the phrase in LUFS.
    pub level: f64,
    /// Chooses the small differences between attacks.
    pub seed: u64,
    /// Whether the room is heard.
    pub room: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            rate: 48_000,
            a4: 440.0,
            level: LOUDNESS,
            seed: 0,
            room: true,
        }
    }
}

/// Sound in memory.
#[derive(Clone, Debug, PartialEq)]
pub struct Samples {
    /// Frames a second.
    pub rate: u32,
    /// Left and right in turn, each within ±1.
    pub interleaved: Vec<f32>,
}

impl Samples {
    /// The number of frames.
    #[must_use]
    pub fn frames(&self) -> usize {
        self.interleaved.len() / 2
    }

    /// The length in seconds.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.frames() as f64 / f64::from(self.rate)
    }
}

/// Sounds `passage` at an even loudness, with its room and its last release.
#[must_use]
pub fn render(passage: &Passage, sound: &Sound, settings: &Settings) -> Samples {
    let mut renderer = Renderer::new(passage, sound, settings);
    let mut interleaved = vec![0.0; 2 * renderer.frames()];
    renderer.fill(&mut interleaved);
    level(&mut interleaved, settings);
    Samples {
        rate: settings.rate,
        interleaved,
    }
}

/// One gain for the whole phrase, then the ceiling.
fn level(samples: &mut [f32], settings: &Settings) {
    let Some(found) = loudness(samples, settings.rate) else {
        return;
    };
    let gain = factor(settings.level - found) as f32;
    for value in samples.iter_mut() {
        *value *= gain;
    }
    limit(samples, settings.rate, factor(CEILING - MARGIN) as f32);
}

/// Renders a passage piece by piece, before the phrase is levelled. The pieces may have any
/// length; the samples are the same.
pub struct Renderer {
    waiting: std::vec::IntoIter<(usize, Order)>,
    upcoming: Option<(usize, Order)>,
    voices: Vec<Voice>,
    sound: Sound,
    workshop: Workshop,
    room: Option<Net>,
    send: f32,
    frames: usize,
    fade: usize,
    now: usize,
    block: [f32; 2 * MAX_BUFFER_SIZE],
    used: usize,
}

impl Renderer {
    #[must_use]
    pub fn new(passage: &Passage, sound: &Sound, settings: &Settings) -> Self {
        let rate = f64::from(settings.rate);
        let frames = |seconds: f64| (seconds * rate).round() as usize;
        let mut orders: Vec<(usize, Order)> = passage
            .notes
            .iter()
            .enumerate()
            .filter(|(_, note)| !matches!(note.voice, ArrangedVoice::Drum(_)))
            .map(|(number, note)| {
                let order = Order {
                    hertz: note.pitch.frequency(settings.a4),
                    strength: f64::from(note.strength.clamp(0.0, 1.0)),
                    seconds: passage.seconds(note.length),
                    seed: settings.seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ number as u64,
                };
                (frames(passage.seconds(note.start)), order)
            })
            .collect();
        orders.sort_by_key(|(start, _)| *start);
        let written = passage
            .notes
            .iter()
            .map(|note| note.start + note.length)
            .fold(passage.length, u32::max);
        let tail = sound.shape.release / 1000.0 + TAIL * ROOM_SECONDS;
        let mut waiting = orders.into_iter();
        Self {
            upcoming: waiting.next(),
            waiting,
            voices: Vec::new(),
            sound: sound.clone(),
            workshop: Workshop::new(sound, rate),
            room: settings.room.then(|| room(rate)),
            send: factor(sound.shape.room) as f32,
            frames: frames(passage.seconds(written) + tail),
            fade: frames(FADE),
            now: 0,
            block: [0.0; 2 * MAX_BUFFER_SIZE],
            used: 2 * MAX_BUFFER_SIZE,
        }
    }

    /// The number of frames the passage takes with its tail.
    #[must_use]
    pub fn frames(&self) -> usize {
        self.frames
    }

    /// Fills `samples` (left and right in turn) with what comes next; after the end with
    /// silence.
    pub fn fill(&mut self, samples: &mut [f32]) {
        let mut done = 0;
        while done < samples.len() {
            if self.used == self.block.len() {
                self.next_block();
            }
            let count = (samples.len() - done).min(self.block.len() - self.used);
            samples[done..done + count].copy_from_slice(&self.block[self.used..self.used + count]);
            self.used += count;
            done += count;
        }
    }

    fn next_block(&mut self) {
        let end = self.now + MAX_BUFFER_SIZE;
        let mut left = [0.0; MAX_BUFFER_SIZE];
        let mut right = [0.0; MAX_BUFFER_SIZE];
        for voice in &mut self.voices {
            voice.add(&mut left, &mut right);
        }
        while let Some((start, order)) = self.upcoming.take_if(|(start, _)| *start < end) {
            let mut voice = Voice::new(&self.sound, &order, &mut self.workshop);
            let from = start - self.now;
            voice.add(&mut left[from..], &mut right[from..]);
            self.voices.push(voice);
            self.upcoming = self.waiting.next();
        }
        self.voices.retain(|voice| !voice.is_over());
        self.add_room(&mut left, &mut right);
        for (place, frame) in self.block.chunks_exact_mut(2).enumerate() {
            let gain = fade(self.frames.saturating_sub(self.now + place), self.fade);
            frame[0] = left[place] * gain;
            frame[1] = right[place] * gain;
        }
        self.now = end;
        self.used = 0;
    }

    fn add_room(&mut self, left: &mut [f32], right: &mut [f32]) {
        let Some(room) = &mut self.room else {
            return;
        };
        let mut sent: BufferArray<U1> = BufferArray::new();
        let mut heard: BufferArray<U2> = BufferArray::new();
        let sides = left.iter().zip(right.iter());
        for (value, (left, right)) in sent.channel_f32_mut(0).iter_mut().zip(sides) {
            *value = (left + right) * self.send;
        }
        room.process(MAX_BUFFER_SIZE, &sent.buffer_ref(), &mut heard.buffer_mut());
        for (side, dry) in [left, right].into_iter().enumerate() {
            for (value, wet) in dry.iter_mut().zip(heard.channel_f32(side)) {
                *value += wet;
            }
        }
    }
}

/// A half cosine to nothing over the last `length` frames.
fn fade(left: usize, length: usize) -> f32 {
    if left >= length {
        return 1.0;
    }
    0.5 - 0.5 * (std::f32::consts::PI * left as f32 / length as f32).cos()
}

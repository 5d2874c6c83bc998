//! One sounding note: its partials and its noise, its rise and its end.

use std::f64::consts::TAU;

use fundsp::MAX_BUFFER_SIZE;
use fundsp::prelude32::{An, AudioUnit, BufferArray, BufferRef, Net, U1};
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;

use super::bank::Bank;
use super::body::{body, weight};
use super::hiss::{Hiss, NoiseTable};
use super::sound::{Instrument, Layer, Shape};
use super::spectrum::{ORDINARY, Strike, even_out, factor, modes, string};
use super::weighting::Weighting;

/// Loudness of a note of ordinary strength, as the amplitude of a sine at 1 kHz.
const ORDINARY_LEVEL: f64 = 0.05;
/// The longest time in seconds that a key is let go before the written end.
const EARLY: f64 = 0.02;
/// Decibels by which two equal notes may differ, up or down.
const UNEVEN: f64 = 0.3;

/// An instrument made ready at a rate, once for a passage.
pub(super) struct Workshop {
    instrument: Instrument,
    rate: f64,
    body: Net,
    weighting: Weighting,
    tables: Vec<NoiseTable>,
}

impl Workshop {
    pub(super) fn new(instrument: &Instrument, rate: f64) -> Self {
        let body = body(&instrument.body, rate);
        let bursts = instrument.layers.iter().filter_map(|layer| match layer {
            Layer::Noise(burst) => Some(*burst),
            Layer::String(_) | Layer::Modes(_) => None,
        });
        let tables = bursts
            .zip(1..)
            .map(|(burst, seed)| NoiseTable::new(burst, &body, rate, seed))
            .collect();
        Self {
            instrument: instrument.clone(),
            rate,
            body,
            weighting: Weighting::new(rate),
            tables,
        }
    }

    pub(super) fn shape(&self) -> Shape {
        self.instrument.shape
    }
}

/// A note to be sounded.
#[derive(Clone, Copy, Debug)]
pub(super) struct Order {
    pub(super) hertz: f64,
    pub(super) strength: f64,
    /// Written length in seconds.
    pub(super) seconds: f64,
    /// Seconds by which it begins after its written time.
    pub(super) late: f64,
    pub(super) seed: u64,
}

/// A sounding note. It computes blocks of [`MAX_BUFFER_SIZE`] frames counted from its own
/// start, whatever pieces are asked for.
pub(super) struct Voice {
    bank: An<Bank>,
    bursts: Vec<Hiss>,
    ends: Ends,
    damping: f64,
    left: f32,
    right: f32,
    now: usize,
    block: BufferArray<U1>,
    used: usize,
}

impl Voice {
    pub(super) fn new(workshop: &mut Workshop, order: &Order) -> Self {
        let mut chance = ChaCha8Rng::seed_from_u64(order.seed);
        let shape = workshop.instrument.shape;
        let strike = Strike {
            hertz: order.hertz,
            strength: order.strength,
            rate: workshop.rate,
        };
        // Strength is amplitude: twice as strong is 6 dB more.
        let touch = order.strength / ORDINARY;
        let varied = shape.tilt * strike.octaves() + chance.random_range(-UNEVEN..UNEVEN);
        let loud = ORDINARY_LEVEL * touch * factor(shape.level + varied);
        let mut partials = Vec::new();
        for layer in &workshop.instrument.layers {
            let (level, mut tones) = match layer {
                Layer::String(layer) => (layer.level, string(layer, &strike, &mut chance)),
                Layer::Modes(layer) => (layer.level, modes(layer, &strike, &mut chance)),
                Layer::Noise(_) => continue,
            };
            for tone in &mut tones {
                tone.level *= weight(&mut workshop.body, tone.hertz);
                // In the phase of its written time: a partial that two notes of a chord
                // share would else be lost where they come half a period apart.
                tone.phase += TAU * (tone.hertz * order.late).fract();
            }
            even_out(&mut tones, loud * factor(level), &workshop.weighting);
            partials.append(&mut tones);
        }
        let bursts = workshop
            .tables
            .iter()
            .map(|table| Hiss::new(table, loud, order.strength, &mut chance))
            .collect();
        let frames = |seconds: f64| (seconds * workshop.rate).round().max(1.0) as usize;
        let release = shape.release / 1000.0;
        let (left, right) = sides(shape.spread, strike.octaves());
        Self {
            bank: An(Bank::new(partials, workshop.rate)),
            bursts,
            ends: Ends {
                attack: frames(shape.attack / 1000.0),
                let_go: frames(order.seconds - order.late - EARLY.min(order.seconds * 0.1)),
                release: frames(release),
            },
            damping: 3.0 / release,
            left,
            right,
            now: 0,
            block: BufferArray::new(),
            used: MAX_BUFFER_SIZE,
        }
    }

    /// Whether nothing more will sound.
    pub(super) fn is_over(&self) -> bool {
        self.used == MAX_BUFFER_SIZE
            && (self.now >= self.ends.let_go + self.ends.release
                || (self.bank.0.is_silent() && self.bursts.is_empty()))
    }

    /// Adds the next frames to both sides.
    pub(super) fn add(&mut self, left: &mut [f32], right: &mut [f32]) {
        let mut done = 0;
        while done < left.len() {
            if self.used == MAX_BUFFER_SIZE {
                if self.is_over() {
                    return;
                }
                self.next_block();
            }
            let count = (left.len() - done).min(MAX_BUFFER_SIZE - self.used);
            let block = &self.block.channel_f32(0)[self.used..self.used + count];
            let sides = left[done..].iter_mut().zip(&mut right[done..]);
            for ((left, right), value) in sides.zip(block) {
                *left += value * self.left;
                *right += value * self.right;
            }
            self.used += count;
            done += count;
        }
    }

    fn next_block(&mut self) {
        let block = self.now..self.now + MAX_BUFFER_SIZE;
        if block.contains(&self.ends.let_go) {
            self.bank.0.let_go(self.damping);
        }
        let silence = BufferRef::empty();
        AudioUnit::process(
            &mut self.bank,
            MAX_BUFFER_SIZE,
            &silence,
            &mut self.block.buffer_mut(),
        );
        let mix = self.block.channel_mut(0);
        self.bursts.retain_mut(|burst| burst.add(mix));
        if block.start < self.ends.attack || block.end > self.ends.let_go {
            let values = self.block.channel_f32_mut(0).iter_mut();
            for (value, frame) in values.zip(block.clone()) {
                *value *= self.ends.rise(frame) * self.ends.fall(frame);
            }
        }
        self.now = block.end;
        self.used = 0;
    }
}

/// How a note begins and ends, in frames.
#[derive(Clone, Copy, Debug)]
struct Ends {
    attack: usize,
    let_go: usize,
    release: usize,
}

impl Ends {
    fn rise(&self, frame: usize) -> f32 {
        smooth(frame as f32 / self.attack as f32)
    }

    fn fall(&self, frame: usize) -> f32 {
        smooth(1.0 - frame.saturating_sub(self.let_go) as f32 / self.release as f32)
    }
}

/// From 0 to 1 without a corner at either end, while `part` goes from 0 to 1.
pub(super) fn smooth(part: f32) -> f32 {
    let part = part.clamp(0.0, 1.0);
    part * part * (3.0 - 2.0 * part)
}

/// Equal-power places between the speakers; three octaves from middle C is the edge.
fn sides(spread: f64, octaves: f64) -> (f32, f32) {
    let place = (spread * octaves / 3.0).clamp(-1.0, 1.0);
    let angle = (1.0 + place) * std::f64::consts::FRAC_PI_4;
    (angle.cos() as f32, angle.sin() as f32)
}

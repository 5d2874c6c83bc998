//! One sounding note: its layers as fundsp units, its rise and its end.

use fundsp::prelude32::{An, AudioUnit, BufferArray, BufferRef, Net, U1};
use fundsp::prelude32::{highpass_hz, lowpass_hz, noise};
use fundsp::{F32x, MAX_BUFFER_SIZE, SIMD_N};
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;

use super::bank::Bank;
use super::body::{body, corner, weight};
use super::sound::{Burst, Layer, Sound};
use super::spectrum::{ORDINARY, Strike, even_out, factor, modes, string};
use super::weighting::Weighting;

/// Loudness of a note of ordinary strength, as the amplitude of a sine at 1 kHz.
const ORDINARY_LEVEL: f64 = 0.05;
/// How the amplitude follows strength: twice as strong is 9 dB more.
const STRENGTH_POWER: f64 = 1.5;
/// The longest time in seconds that a key is let go before the written end.
const EARLY: f64 = 0.02;

/// What a voice needs besides its note; made once for a passage.
#[derive(Clone)]
pub(super) struct Workshop {
    pub(super) rate: f64,
    pub(super) body: Net,
    pub(super) weighting: Weighting,
}

impl Workshop {
    pub(super) fn new(sound: &Sound, rate: f64) -> Self {
        Self {
            rate,
            body: body(&sound.body, rate),
            weighting: Weighting::new(rate),
        }
    }
}

/// A note to be sounded.
#[derive(Clone, Copy, Debug)]
pub(super) struct Order {
    pub(super) hertz: f64,
    pub(super) strength: f64,
    /// Written length in seconds.
    pub(super) seconds: f64,
    pub(super) seed: u64,
}

/// A sounding note. It computes blocks of [`MAX_BUFFER_SIZE`] frames counted from its own
/// start, whatever pieces are asked for.
pub(super) struct Voice {
    bank: An<Bank>,
    bursts: Vec<Hiss>,
    attack: usize,
    let_go: usize,
    release: usize,
    damping: f64,
    left: f32,
    right: f32,
    now: usize,
    block: BufferArray<U1>,
    used: usize,
}

/// A burst of noise and how it fades.
struct Hiss {
    unit: Box<dyn AudioUnit>,
    level: f32,
    shrink: f32,
}

impl Voice {
    pub(super) fn new(sound: &Sound, order: &Order, workshop: &mut Workshop) -> Self {
        let mut chance = ChaCha8Rng::seed_from_u64(order.seed);
        let strike = Strike {
            hertz: order.hertz,
            strength: order.strength,
            rate: workshop.rate,
        };
        let touch = (order.strength / ORDINARY).powf(STRENGTH_POWER);
        let loud = ORDINARY_LEVEL
            * touch
            * factor(sound.shape.tilt * strike.octaves() + chance.random_range(-0.3..0.3));
        let mut partials = Vec::new();
        let mut bursts = Vec::new();
        for layer in &sound.layers {
            let (level, mut tones) = match layer {
                Layer::String(layer) => (layer.level, string(layer, &strike, &mut chance)),
                Layer::Modes(layer) => (layer.level, modes(layer, &strike, &mut chance)),
                Layer::Noise(burst) => {
                    bursts.push(Hiss::new(burst, loud, order, chance.random(), workshop));
                    continue;
                }
            };
            for tone in &mut tones {
                tone.level *= weight(&mut workshop.body, tone.hertz);
            }
            even_out(&mut tones, loud * factor(level), &workshop.weighting);
            partials.append(&mut tones);
        }
        let frames = |seconds: f64| (seconds * workshop.rate).round().max(1.0) as usize;
        let let_go = order.seconds - EARLY.min(order.seconds * 0.1);
        let release = sound.shape.release / 1000.0;
        let (left, right) = sides(sound.shape.spread, strike.octaves());
        Self {
            bank: An(Bank::new(partials, workshop.rate)),
            bursts,
            attack: frames(sound.shape.attack / 1000.0),
            let_go: frames(let_go),
            release: frames(release),
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
            && (self.now >= self.let_go + self.release
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
        if block.contains(&self.let_go) {
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
        if block.start < self.attack || block.end > self.let_go {
            let (attack, let_go, release) = (self.attack, self.let_go, self.release);
            for (place, value) in self.block.channel_f32_mut(0).iter_mut().enumerate() {
                let frame = block.start + place;
                *value *= rise(frame, attack) * fall(frame, let_go, release);
            }
        }
        self.now = block.end;
        self.used = 0;
    }
}

/// A half cosine from 0 to 1.
fn rise(frame: usize, attack: usize) -> f32 {
    if frame >= attack {
        return 1.0;
    }
    let part = frame as f32 / attack as f32;
    0.5 - 0.5 * (std::f32::consts::PI * part).cos()
}

/// A half cosine from 1 to 0.
fn fall(frame: usize, let_go: usize, release: usize) -> f32 {
    if frame <= let_go {
        return 1.0;
    }
    let part = (frame - let_go) as f32 / release as f32;
    0.5 + 0.5 * (std::f32::consts::PI * part.min(1.0)).cos()
}

/// Equal-power places between the speakers; three octaves from middle C is the edge.
fn sides(spread: f64, octaves: f64) -> (f32, f32) {
    let place = (spread * octaves / 3.0).clamp(-1.0, 1.0);
    let angle = (1.0 + place) * std::f64::consts::FRAC_PI_4;
    (angle.cos() as f32, angle.sin() as f32)
}

impl Hiss {
    fn new(burst: &Burst, loud: f64, order: &Order, seed: u64, workshop: &Workshop) -> Self {
        let touch = burst.touch * (order.strength - ORDINARY) / (1.0 - ORDINARY);
        let mut unit = Net::wrap(Box::new(
            noise().seed(seed)
                >> highpass_hz(corner(burst.low, workshop.rate), 0.7)
                >> lowpass_hz(corner(burst.high, workshop.rate), 0.7),
        )) >> workshop.body.clone();
        unit.set_sample_rate(workshop.rate);
        let frames = burst.decay / 1000.0 * workshop.rate;
        Self {
            unit: Box::new(unit),
            level: (loud * factor(burst.level + touch)) as f32,
            shrink: (-6.907_755 / frames).exp() as f32,
        }
    }

    /// Adds a block; false once it has died away.
    fn add(&mut self, mix: &mut [F32x]) -> bool {
        let mut block: BufferArray<U1> = BufferArray::new();
        self.unit.process(
            MAX_BUFFER_SIZE,
            &BufferRef::empty(),
            &mut block.buffer_mut(),
        );
        let mut level = self.level;
        let lanes = F32x::new(std::array::from_fn(|lane| self.shrink.powi(lane as i32)));
        let stride = self.shrink.powi(SIMD_N as i32);
        for (sum, value) in mix.iter_mut().zip(block.channel(0)) {
            *sum += *value * lanes * F32x::splat(level);
            level *= stride;
        }
        self.level = level;
        level > 1e-6
    }
}

//! A bank of decaying partials as one fundsp unit: the block voice behind strings, bars
//! and pipes. Owns the fast recurrence; knows nothing of instruments.

use fundsp::prelude32::{AudioNode, BufferMut, BufferRef, Frame, MAX_BUFFER_SIZE};
use fundsp::{F32x, SIMD_N, simd_items, typenum};

/// One partial as it is at the start of the note.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Partial {
    /// Frequency in hertz.
    pub(super) hertz: f64,
    /// Amplitude at the start, 1 being full scale.
    pub(super) level: f64,
    /// Decay in nepers a second; 0 holds for ever.
    pub(super) decay: f64,
    /// Phase at the start, in radians; 0 starts at zero and rises.
    pub(super) phase: f64,
}

/// Frames between fresh starts of the recurrence from the exact phase. The single
/// precision recurrence drifts by less than −120 dB in that time.
const FRESH: u64 = 1024;
/// Partials below this amplitude are dropped at the next fresh start (−110 dB).
const INAUDIBLE: f64 = 3e-6;

/// Decaying sines. Each is computed eight frames at a time by the two-term recurrence
/// `v[n+8] = 2 r⁸ cos(8ω) v[n] − r¹⁶ v[n−8]`, where `r` is the decay a frame.
#[derive(Clone)]
pub(super) struct Bank {
    rate: f64,
    partials: Vec<Partial>,
    running: Vec<Running>,
    now: u64,
    /// The recurrence has been left behind by single steps.
    stale: bool,
    /// When the key was let go, and the decay in nepers a second that this adds.
    let_go: Option<(u64, f64)>,
}

/// The recurrence of one partial.
#[derive(Clone, Copy)]
struct Running {
    partial: Partial,
    forward: F32x,
    back: F32x,
    /// Damped cosines and sines of the next sixteen frames, for a fresh start.
    cosine: [F32x; 2],
    sine: [F32x; 2],
    /// The next sixteen frames.
    next: [F32x; 2],
}

impl Running {
    fn new(partial: Partial, damping: f64, rate: f64) -> Self {
        let decay = (partial.decay + damping) / rate;
        let step = std::f64::consts::TAU * partial.hertz / rate;
        let stride = SIMD_N as f64;
        let (turn_sine, turn_cosine) = step.sin_cos();
        let shrink = (-decay).exp();
        let (mut x, mut y) = (1.0_f64, 0.0_f64);
        let mut cosine = [0f32; 2 * SIMD_N];
        let mut sine = [0f32; 2 * SIMD_N];
        for place in 0..2 * SIMD_N {
            cosine[place] = x as f32;
            sine[place] = y as f32;
            (x, y) = (
                (x * turn_cosine - y * turn_sine) * shrink,
                (x * turn_sine + y * turn_cosine) * shrink,
            );
        }
        let halves = |all: [f32; 2 * SIMD_N]| {
            let (low, high) = all.split_at(SIMD_N);
            let half = |side: &[f32]| F32x::new(side.try_into().expect("half of the lanes"));
            [half(low), half(high)]
        };
        Self {
            partial,
            forward: F32x::splat((2.0 * (-decay * stride).exp() * (step * stride).cos()) as f32),
            back: F32x::splat((-2.0 * decay * stride).exp() as f32),
            cosine: halves(cosine),
            sine: halves(sine),
            next: [F32x::splat(0.0); 2],
        }
    }

    /// Sets the next sixteen frames from the exact phase and amplitude.
    fn start(&mut self, level: f64, frame: u64, rate: f64) {
        let turns = self.partial.hertz / rate * frame as f64;
        let phase = std::f64::consts::TAU * turns.fract() + self.partial.phase;
        let (sine, cosine) = phase.sin_cos();
        let across = F32x::splat((level * sine) as f32);
        let along = F32x::splat((level * cosine) as f32);
        for half in 0..2 {
            self.next[half] = self.cosine[half] * across + self.sine[half] * along;
        }
    }
}

impl Bank {
    pub(super) fn new(partials: Vec<Partial>, rate: f64) -> Self {
        let mut bank = Self {
            rate,
            partials,
            running: Vec::new(),
            now: 0,
            stale: true,
            let_go: None,
        };
        bank.reset();
        bank
    }

    /// From the present frame on, every partial decays by `damping` nepers a second more.
    pub(super) fn let_go(&mut self, damping: f64) {
        self.let_go = Some((self.now, damping));
        for running in &mut self.running {
            *running = Running::new(running.partial, damping, self.rate);
        }
        self.start_afresh();
    }

    fn start_afresh(&mut self) {
        let (now, rate) = (self.now, self.rate);
        let damped = self
            .let_go
            .map_or(0.0, |(then, damping)| damping * (now - then) as f64 / rate);
        self.running.retain_mut(|running| {
            let partial = running.partial;
            let level = partial.level * (-partial.decay * now as f64 / rate - damped).exp();
            running.start(level, now, rate);
            level > INAUDIBLE
        });
        self.stale = false;
    }

    /// Whether every partial has died away.
    pub(super) fn is_silent(&self) -> bool {
        self.running.is_empty()
    }
}

impl AudioNode for Bank {
    const ID: u64 = 0x706c_0001;
    type Inputs = typenum::U0;
    type Outputs = typenum::U1;

    fn reset(&mut self) {
        self.now = 0;
        self.let_go = None;
        self.running = self
            .partials
            .iter()
            .map(|partial| Running::new(*partial, 0.0, self.rate))
            .collect();
        self.start_afresh();
    }

    fn set_sample_rate(&mut self, sample_rate: f64) {
        if sample_rate != self.rate {
            self.rate = sample_rate;
            self.reset();
        }
    }

    fn tick(&mut self, _input: &Frame<f32, Self::Inputs>) -> Frame<f32, Self::Outputs> {
        let (now, rate) = (self.now as f64, self.rate);
        let since = self
            .let_go
            .map_or(0.0, |(then, damping)| damping * (now - then as f64) / rate);
        self.now += 1;
        let sum: f64 = self
            .running
            .iter()
            .map(|running| {
                let partial = running.partial;
                let turns = (partial.hertz / rate * now).fract();
                partial.level
                    * (-partial.decay * now / rate - since).exp()
                    * (std::f64::consts::TAU * turns + partial.phase).sin()
            })
            .sum();
        self.stale = true;
        [sum as f32].into()
    }

    fn process(&mut self, size: usize, _input: &BufferRef, output: &mut BufferMut) {
        if size != MAX_BUFFER_SIZE {
            for frame in 0..size {
                let sum = self.tick(&Frame::default());
                output.set_f32(0, frame, sum[0]);
            }
            return;
        }
        if self.stale || self.now.is_multiple_of(FRESH) {
            self.start_afresh();
        }
        let out = output.channel_mut(0);
        out[..simd_items(size)].fill(F32x::splat(0.0));
        for running in &mut self.running {
            let (forward, back) = (running.forward, running.back);
            let [mut even, mut odd] = running.next;
            for pair in out.chunks_exact_mut(2) {
                pair[0] += even;
                pair[1] += odd;
                even = forward * odd - back * even;
                odd = forward * even - back * odd;
            }
            running.next = [even, odd];
        }
        self.now += size as u64;
    }
}

//! A bank of decaying partials as one fundsp unit: the block voice behind strings, bars
//! and pipes. Owns the fast recurrence; knows nothing of instruments.

use std::f64::consts::TAU;

use fundsp::math::Complex64;
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

/// Frames between fresh starts of the recurrence from a phase in double precision. In that
/// time single precision drifts by less than −90 dB, and less the higher the partial.
const FRESH: u64 = 256;
/// Partials below this amplitude are dropped at the next fresh start (−97 dB; a note of
/// ordinary strength is at −26 dB).
const INAUDIBLE: f64 = 1.5e-5;
/// Dampers stop high partials sooner: at this frequency, in hertz, twice as fast.
const DAMPER: f64 = 1_500.0;

/// Decaying sines. Each is computed eight frames at a time by the two-term recurrence
/// `v[n+8] = 2 r⁸ cos(8ω) v[n] − r¹⁶ v[n−8]`, where `r` is the decay a frame.
#[derive(Clone)]
pub(super) struct Bank {
    rate: f64,
    partials: Vec<Partial>,
    /// The living partials: what starts them afresh, and their recurrences, in step.
    seeds: Vec<Seed>,
    running: Vec<Running>,
    now: u64,
    /// Frames since the last fresh start; none: the next must be from the closed form.
    since: Option<u64>,
    /// When the key was let go, and the decay in nepers a second that this adds to the
    /// lowest partials.
    let_go: Option<(u64, f64)>,
}

/// The recurrence of one partial; kept small, since it is all that a block touches.
#[derive(Clone, Copy)]
struct Running {
    /// The next sixteen frames.
    next: [F32x; 2],
    forward: f32,
    back: f32,
}

/// What a partial needs to begin anywhere.
#[derive(Clone)]
struct Seed {
    partial: Partial,
    /// How much more the damper acts on this partial than on the lowest.
    damper: f64,
    /// Damped cosines and sines of sixteen frames.
    cosine: [F32x; 2],
    sine: [F32x; 2],
    /// Cosine and sine part at the last fresh start, and how they turn until the next.
    phasor: Complex64,
    turn: Complex64,
}

impl Seed {
    /// The partial with `damping` nepers a second added to its decay.
    fn new(partial: Partial, damping: f64, rate: f64) -> (Self, Running) {
        let damper = 1.0 + partial.hertz / DAMPER;
        let decay = (partial.decay + damping * damper) / rate;
        let step = TAU * partial.hertz / rate;
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
        let running = Running {
            next: [F32x::splat(0.0); 2],
            forward: (2.0 * (-decay * stride).exp() * (step * stride).cos()) as f32,
            back: (-2.0 * decay * stride).exp() as f32,
        };
        let seed = Self {
            partial,
            damper,
            cosine: halves(cosine),
            sine: halves(sine),
            phasor: Complex64::ZERO,
            turn: Complex64::from_polar((-decay * FRESH as f64).exp(), step * FRESH as f64),
        };
        (seed, running)
    }

    /// The next sixteen frames.
    fn frames(&self) -> [F32x; 2] {
        let across = F32x::splat(self.phasor.im as f32);
        let along = F32x::splat(self.phasor.re as f32);
        std::array::from_fn(|half| self.cosine[half] * across + self.sine[half] * along)
    }

    /// Where the partial is `frames` after the start, the damper having acted by `damped`
    /// nepers; its imaginary part is what sounds.
    fn at(&self, frames: f64, damped: f64, rate: f64) -> Complex64 {
        let decayed = self.partial.decay * frames / rate + damped * self.damper;
        let turns = self.partial.hertz / rate * frames;
        Complex64::from_polar(
            self.partial.level * (-decayed).exp(),
            TAU * turns.fract() + self.partial.phase,
        )
    }
}

fn halves(all: [f32; 2 * SIMD_N]) -> [F32x; 2] {
    std::array::from_fn(|half| F32x::new(std::array::from_fn(|lane| all[half * SIMD_N + lane])))
}

impl Bank {
    pub(super) fn new(partials: Vec<Partial>, rate: f64) -> Self {
        let mut bank = Self {
            rate,
            partials,
            seeds: Vec::new(),
            running: Vec::new(),
            now: 0,
            since: None,
            let_go: None,
        };
        bank.reset();
        bank
    }

    /// From the present frame on, low partials decay by `damping` nepers a second more,
    /// high ones by more than that.
    pub(super) fn let_go(&mut self, damping: f64) {
        self.let_go = Some((self.now, damping));
        for (seed, running) in self.seeds.iter_mut().zip(&mut self.running) {
            (*seed, *running) = Seed::new(seed.partial, damping, self.rate);
        }
        self.since = None;
    }

    /// Nepers by which the damper has acted on the lowest partials.
    fn damped(&self) -> f64 {
        self.let_go.map_or(0.0, |(then, damping)| {
            damping * (self.now - then) as f64 / self.rate
        })
    }

    fn start_afresh(&mut self) {
        let (now, damped) = (self.now as f64, self.damped());
        for place in (0..self.seeds.len()).rev() {
            let seed = &mut self.seeds[place];
            seed.phasor = match self.since {
                Some(_) => seed.phasor * seed.turn,
                None => seed.at(now, damped, self.rate),
            };
            if seed.phasor.norm_sqr() < INAUDIBLE * INAUDIBLE {
                self.seeds.swap_remove(place);
                self.running.swap_remove(place);
            } else {
                self.running[place].next = seed.frames();
            }
        }
        self.since = Some(0);
    }

    /// Whether every partial has died away.
    pub(super) fn is_silent(&self) -> bool {
        self.running.is_empty()
    }
}

/// Adds the next block of some partials. Two together hide each other's waiting.
#[inline]
fn advance<const N: usize>(partials: &mut [Running; N], out: &mut [F32x]) {
    let forward: [F32x; N] = std::array::from_fn(|n| F32x::splat(partials[n].forward));
    let back: [F32x; N] = std::array::from_fn(|n| F32x::splat(partials[n].back));
    let mut even: [F32x; N] = std::array::from_fn(|n| partials[n].next[0]);
    let mut odd: [F32x; N] = std::array::from_fn(|n| partials[n].next[1]);
    for pair in out.chunks_exact_mut(2) {
        for n in 0..N {
            pair[0] += even[n];
            even[n] = forward[n] * odd[n] - back[n] * even[n];
        }
        for n in 0..N {
            pair[1] += odd[n];
            odd[n] = forward[n] * even[n] - back[n] * odd[n];
        }
    }
    for n in 0..N {
        partials[n].next = [even[n], odd[n]];
    }
}

impl AudioNode for Bank {
    const ID: u64 = 0x706c_0001;
    type Inputs = typenum::U0;
    type Outputs = typenum::U1;

    fn reset(&mut self) {
        self.now = 0;
        self.let_go = None;
        let all = self.partials.iter();
        (self.seeds, self.running) = all
            .map(|partial| Seed::new(*partial, 0.0, self.rate))
            .unzip();
        self.since = None;
    }

    fn set_sample_rate(&mut self, sample_rate: f64) {
        if sample_rate != self.rate {
            self.rate = sample_rate;
            self.reset();
        }
    }

    fn tick(&mut self, _input: &Frame<f32, Self::Inputs>) -> Frame<f32, Self::Outputs> {
        let (now, damped) = (self.now as f64, self.damped());
        let sum: f64 = self
            .seeds
            .iter()
            .map(|seed| seed.at(now, damped, self.rate).im)
            .sum();
        self.now += 1;
        self.since = None;
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
        if self.since.is_none_or(|since| since == FRESH) {
            self.start_afresh();
        }
        self.since = self.since.map(|since| since + size as u64);
        let out = output.channel_mut(0);
        out[..simd_items(size)].fill(F32x::splat(0.0));
        let (pairs, single) = self.running.as_chunks_mut::<2>();
        for pair in pairs {
            advance(pair, out);
        }
        for running in single {
            advance(std::array::from_mut(running), out);
        }
        self.now += size as u64;
    }
}

#[cfg(test)]
mod tests {
    use fundsp::prelude32::{BufferArray, U1};

    use super::*;

    fn partials() -> Vec<Partial> {
        [(41.2, 0.5, 0.4), (440.0, 0.3, 2.0), (9_000.0, 0.2, 9.0)]
            .map(|(hertz, level, decay)| Partial {
                hertz,
                level,
                decay,
                phase: 0.3,
            })
            .into()
    }

    fn block(bank: &mut Bank) -> Vec<f32> {
        let mut block: BufferArray<U1> = BufferArray::new();
        bank.process(
            MAX_BUFFER_SIZE,
            &BufferRef::empty(),
            &mut block.buffer_mut(),
        );
        block.channel_f32(0).to_vec()
    }

    #[test]
    fn blocks_agree_with_the_closed_form() {
        let (mut fast, mut exact) = (Bank::new(partials(), 48e3), Bank::new(partials(), 48e3));
        for number in 0..1500 {
            if number == 1000 {
                fast.let_go(20.0);
                exact.let_go(20.0);
            }
            for value in block(&mut fast) {
                let truth = exact.tick(&Frame::default())[0];
                assert!((value - truth).abs() < 2e-5, "{value} is not {truth}");
            }
        }
    }

    #[test]
    fn the_partials_fall_silent() {
        let mut bank = Bank::new(partials(), 48e3);
        let blocks = (0..100_000).take_while(|_| {
            block(&mut bank);
            !bank.is_silent()
        });
        // 94 dB at 0.4 nepers a second: 27 s of 750 blocks each.
        assert!((19_000..22_000).contains(&blocks.count()));
    }
}

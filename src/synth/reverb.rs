//! The room: a feedback delay network of eight lines as one fundsp unit. It works on whole
//! blocks, which is possible because every line is longer than a block.

use fundsp::MAX_BUFFER_SIZE;
use fundsp::prelude32::{AudioNode, BufferMut, BufferRef, Frame};
use fundsp::typenum;
use fundsp::wide::f32x4;

const LINES: usize = 8;
/// Milliseconds of the lines, without a common measure.
const LENGTHS: [f64; LINES] = [23.1, 26.9, 29.3, 33.7, 37.9, 41.3, 45.1, 49.7];
/// Seconds in which the room falls by 60 dB.
pub(super) const SECONDS: f64 = 1.1;
/// Hertz below which nothing is sent into the room, so that basses stay clear.
const SEND_FROM: f64 = 180.0;
/// Values that a line needs around a block for its smoothing.
const MARGIN: usize = 2;

type DelayBlock = [f32; MAX_BUFFER_SIZE];
type Near = [f32; MAX_BUFFER_SIZE + MARGIN];

/// One input, two outputs, as loud as what is sent in.
#[derive(Clone)]
pub(super) struct Room {
    rate: f64,
    send: Send,
    lines: [Line; LINES],
    input: f32,
    now: usize,
}

impl Room {
    pub(super) fn new(rate: f64) -> Self {
        let lines = LENGTHS.map(|length| Line::new(length / 1000.0, rate));
        let lost: f64 = lines.iter().map(|line| 1.0 - line.kept).sum::<f64>() / LINES as f64;
        Self {
            rate,
            send: Send::new(rate),
            lines,
            input: (lost / (LINES / 2) as f64).sqrt() as f32,
            now: 0,
        }
    }

    /// At most a block: the room's answer to `input`.
    fn run(&mut self, input: &[f32], left: &mut [f32], right: &mut [f32]) {
        let size = input.len();
        let sent = self.send.run(input);
        let near: [Near; LINES] = std::array::from_fn(|line| self.lines[line].read(self.now));
        let mut kept: [DelayBlock; LINES] = [[0.0; MAX_BUFFER_SIZE]; LINES];
        let mut sides: [DelayBlock; 2] = [[0.0; MAX_BUFFER_SIZE]; 2];
        // Four frames at a time, so that all lines fit into registers.
        for at in (0..MAX_BUFFER_SIZE).step_by(4) {
            let mut heard: [f32x4; LINES] = std::array::from_fn(|line| smoothed(&near[line], at));
            put(heard[0] - heard[2] + heard[4] - heard[6], &mut sides[0], at);
            put(heard[1] - heard[3] + heard[5] - heard[7], &mut sides[1], at);
            let entry = four(&sent, at) * f32x4::splat(self.input);
            hadamard(&mut heard);
            for (line, kept) in kept.iter_mut().enumerate() {
                let gain = f32x4::splat(self.lines[line].gain);
                put(heard[line] * gain + entry, kept, at);
            }
        }
        left[..size].copy_from_slice(&sides[0][..size]);
        right[..size].copy_from_slice(&sides[1][..size]);
        for (line, kept) in self.lines.iter_mut().zip(&kept) {
            line.write(self.now, &kept[..size]);
        }
        self.now = self.now.wrapping_add(size);
    }
}

fn four(values: &[f32], at: usize) -> f32x4 {
    f32x4::new([values[at], values[at + 1], values[at + 2], values[at + 3]])
}

fn put(value: f32x4, values: &mut DelayBlock, at: usize) {
    values[at..at + 4].copy_from_slice(value.as_array());
}

/// The values from `at` on, high frequencies lost to the air.
fn smoothed(near: &Near, at: usize) -> f32x4 {
    let middle = four(near, at + 1);
    (four(near, at) + middle + middle + four(near, at + 2)) * f32x4::splat(0.25)
}

/// Mixes every line into every other.
fn hadamard(lines: &mut [f32x4; LINES]) {
    for half in [4, 2, 1] {
        for pair in lines.chunks_exact_mut(2 * half) {
            let (upper, lower) = pair.split_at_mut(half);
            for (upper, lower) in upper.iter_mut().zip(lower) {
                (*upper, *lower) = (*upper + *lower, *upper - *lower);
            }
        }
    }
}

/// One delay with its loss.
#[derive(Clone)]
struct Line {
    /// A ring whose length is a power of two.
    ring: Vec<f32>,
    delay: usize,
    /// Amplification a round, the scale of the matrix included.
    gain: f32,
    /// Power kept a round.
    kept: f64,
}

impl Line {
    fn new(seconds: f64, rate: f64) -> Self {
        // Never shorter than a block, whatever the rate.
        let delay = ((seconds * rate).round() as usize).max(MAX_BUFFER_SIZE + MARGIN);
        let gain = 10f64.powf(-3.0 * delay as f64 / (SECONDS * rate));
        Self {
            ring: vec![0.0; (delay + MARGIN).next_power_of_two()],
            delay,
            // The matrix is orthogonal after division by √8.
            gain: (gain / (LINES as f64).sqrt()) as f32,
            kept: gain * gain,
        }
    }

    /// What comes out at `now` and after, and one value before and behind.
    fn read(&self, now: usize) -> Near {
        let mut near = [0.0; MAX_BUFFER_SIZE + MARGIN];
        let start = now.wrapping_sub(self.delay + 1) & (self.ring.len() - 1);
        let first = near.len().min(self.ring.len() - start);
        near[..first].copy_from_slice(&self.ring[start..start + first]);
        let rest = near.len() - first;
        near[first..].copy_from_slice(&self.ring[..rest]);
        near
    }

    fn write(&mut self, now: usize, values: &[f32]) {
        let start = now & (self.ring.len() - 1);
        let first = values.len().min(self.ring.len() - start);
        self.ring[start..start + first].copy_from_slice(&values[..first]);
        self.ring[..values.len() - first].copy_from_slice(&values[first..]);
    }
}

/// The filters before the room: nothing low, little high.
#[derive(Clone)]
struct Send {
    low: [HighPass; 2],
    before: [f32; 2],
}

impl Send {
    fn new(rate: f64) -> Self {
        Self {
            low: [
                HighPass::new(SEND_FROM, rate),
                HighPass::new(SEND_FROM, rate),
            ],
            before: [0.0; 2],
        }
    }

    fn run(&mut self, input: &[f32]) -> DelayBlock {
        let mut near = [0f32; MAX_BUFFER_SIZE + 2];
        near[..2].copy_from_slice(&self.before);
        near[2..2 + input.len()].copy_from_slice(input);
        self.before.copy_from_slice(&near[input.len()..][..2]);
        let mut block: DelayBlock = [0.0; MAX_BUFFER_SIZE];
        for (place, value) in block.iter_mut().enumerate() {
            *value = 0.25 * (near[place] + near[place + 2]) + 0.5 * near[place + 1];
        }
        for filter in &mut self.low {
            filter.run(&mut block[..input.len()]);
        }
        block
    }
}

/// A first-order high-pass, `y[n] = a (y[n−1] + x[n] − x[n−1])`.
#[derive(Clone)]
struct HighPass {
    a: f32,
    input: f32,
    output: f32,
}

impl HighPass {
    fn new(hertz: f64, rate: f64) -> Self {
        let a = 1.0 / (1.0 + std::f64::consts::TAU * hertz / rate);
        Self {
            a: a as f32,
            input: 0.0,
            output: 0.0,
        }
    }

    /// Eight values at a time wait for the eight before them, not each for its neighbour:
    /// three doublings gather what eight steps of the recursion would.
    fn run(&mut self, values: &mut [f32]) {
        const REACH: usize = 8;
        let last = values.last().copied().unwrap_or(self.input);
        let mut sums = [0f32; MAX_BUFFER_SIZE + REACH];
        let mut previous = self.input;
        for (sum, value) in sums[REACH..].iter_mut().zip(&*values) {
            *sum = self.a * (value - previous);
            previous = *value;
        }
        sums[REACH] += self.a * self.output;
        let mut power = self.a;
        for step in [1, 2, 4] {
            let before = sums;
            for (sum, earlier) in sums[REACH..].iter_mut().zip(&before[REACH - step..]) {
                *sum += power * earlier;
            }
            power *= power;
        }
        for place in 0..values.len() {
            sums[REACH + place] += power * sums[place];
        }
        values.copy_from_slice(&sums[REACH..REACH + values.len()]);
        self.input = last;
        self.output = values.last().copied().unwrap_or(self.output);
    }
}

impl AudioNode for Room {
    const ID: u64 = 0x706c_0002;
    type Inputs = typenum::U1;
    type Outputs = typenum::U2;

    fn reset(&mut self) {
        *self = Self::new(self.rate);
    }

    fn set_sample_rate(&mut self, sample_rate: f64) {
        if sample_rate != self.rate {
            *self = Self::new(sample_rate);
        }
    }

    fn tick(&mut self, input: &Frame<f32, Self::Inputs>) -> Frame<f32, Self::Outputs> {
        let (mut left, mut right) = ([0.0], [0.0]);
        self.run(&[input[0]], &mut left, &mut right);
        [left[0], right[0]].into()
    }

    fn process(&mut self, size: usize, input: &BufferRef, output: &mut BufferMut) {
        let input = &input.channel_f32(0)[..size];
        let (left, right) = (output.channel_f32_mut(0), output.channel_f32_mut(1));
        self.run(input, left, right);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(room: &mut Room, value: f32) -> (f32, f32) {
        let sides = room.tick(&[value].into());
        (sides[0], sides[1])
    }
    use fundsp::prelude32::{highpass_hz, lowpass_hz, noise};

    #[test]
    fn the_room_falls_by_sixty_decibels_in_its_time() {
        let rate = 48_000.0;
        let mut room = Room::new(rate);
        let mut energy = Vec::new();
        for frame in 0..(SECONDS * rate) as usize {
            let value = if frame == 0 { 1.0 } else { 0.0 };
            let (left, right) = step(&mut room, value);
            energy.push(f64::from(left * left + right * right));
        }
        // Schroeder's backward integral between −5 and −35 dB of the early part.
        let mut sum = 0.0;
        let mut curve: Vec<f64> = energy
            .iter()
            .rev()
            .map(|e| {
                sum += e;
                sum
            })
            .collect();
        curve.reverse();
        let at = |level: f64| {
            curve
                .iter()
                .position(|c| 10.0 * (c / curve[0]).log10() < level)
        };
        let (from, to) = (at(-5.0).expect("falls"), at(-25.0).expect("falls"));
        let seconds = (to - from) as f64 / rate * 3.0;
        assert!((0.6..=SECONDS * 1.1).contains(&seconds), "{seconds}");
    }

    #[test]
    fn the_room_is_about_as_loud_as_what_is_sent() {
        // What the filters before the room let through.
        let mut source = noise().seed(1) >> highpass_hz(400.0, 0.7) >> lowpass_hz(2_000.0, 0.7);
        let mut room = Room::new(48_000.0);
        let (mut sent, mut heard) = (0.0, 0.0);
        for frame in 0..96_000 {
            let value = source.get_mono();
            let (left, right) = step(&mut room, value);
            if frame > 48_000 {
                sent += f64::from(value * value);
                heard += f64::from(left * left + right * right) / 2.0;
            }
        }
        let decibels = 10.0 * (heard / sent).log10();
        assert!((-6.0..=1.0).contains(&decibels), "{decibels}");
    }

    #[test]
    fn blocks_of_any_size_give_the_same() {
        let input: Vec<f32> = (0..4000).map(|place| (place as f32 * 0.1).sin()).collect();
        let of = |size: usize| {
            let mut room = Room::new(44_100.0);
            let mut sides = (vec![0.0; 4000], vec![0.0; 4000]);
            let outputs = sides.0.chunks_mut(size).zip(sides.1.chunks_mut(size));
            for (input, (left, right)) in input.chunks(size).zip(outputs) {
                room.run(input, left, right);
            }
            sides
        };
        for size in [1, 7, 63] {
            let (found, expected) = (of(size), of(MAX_BUFFER_SIZE));
            for (found, expected) in found.0.iter().zip(&expected.0) {
                assert!((found - expected).abs() < 1e-6, "{size}");
            }
        }
    }
}

//! The room: a feedback delay network of eight lines as one fundsp unit.

use fundsp::prelude32::{An, AudioNode, BufferMut, BufferRef, Frame, highpass_hz, lowpass_hz};
use fundsp::prelude32::{AudioUnit, Net};
use fundsp::typenum;

use super::body::corner;

const LINES: usize = 8;
/// Milliseconds of the lines, without a common measure.
const LENGTHS: [f64; LINES] = [23.1, 26.9, 29.3, 33.7, 37.9, 41.3, 45.1, 49.7];
/// Seconds in which the room falls by 60 dB.
pub(super) const SECONDS: f64 = 1.1;
/// Hertz below which nothing is sent into the room, so that basses stay clear.
const SEND_FROM: f64 = 180.0;
/// Hertz above which the air swallows the sound.
const SEND_TO: f64 = 6_000.0;
/// Smoothing within each line: how much of the last value stays.
const DAMPING: f32 = 0.25;

/// A room at `rate`: one input, two outputs, as loud as what is sent in.
pub(super) fn room(rate: f64) -> Net {
    let send = highpass_hz(corner(SEND_FROM, rate), 0.7) >> lowpass_hz(corner(SEND_TO, rate), 0.7);
    let mut net = Net::wrap(Box::new(send >> An(Lines::new(rate))));
    net.set_sample_rate(rate);
    net
}

/// Eight delays that feed each other through a Hadamard matrix.
#[derive(Clone)]
struct Lines {
    rate: f64,
    /// A ring of frames, all lines side by side.
    ring: Vec<[f32; LINES]>,
    delays: [usize; LINES],
    gains: [f32; LINES],
    smoothed: [f32; LINES],
    input: f32,
    now: usize,
}

impl Lines {
    fn new(rate: f64) -> Self {
        let delays = LENGTHS.map(|length| (length / 1000.0 * rate).round() as usize);
        let longest = delays[LINES - 1] + 1;
        let gain = |delay: usize| 10f64.powf(-3.0 * delay as f64 / (SECONDS * rate));
        let lost: f64 = delays.iter().map(|d| 1.0 - gain(*d).powi(2)).sum::<f64>() / LINES as f64;
        Self {
            rate,
            ring: vec![[0.0; LINES]; longest.next_power_of_two()],
            delays,
            // The matrix is orthogonal after division by √8.
            gains: delays.map(|delay| (gain(delay) / (LINES as f64).sqrt()) as f32),
            smoothed: [0.0; LINES],
            input: (lost / (LINES / 2) as f64).sqrt() as f32,
            now: 0,
        }
    }

    #[inline]
    fn step(&mut self, value: f32) -> (f32, f32) {
        let mask = self.ring.len() - 1;
        let heard: [f32; LINES] = std::array::from_fn(|line| {
            self.ring[self.now.wrapping_sub(self.delays[line]) & mask][line]
        });
        for (smoothed, heard) in self.smoothed.iter_mut().zip(heard) {
            *smoothed = heard + DAMPING * (*smoothed - heard);
        }
        let mixed = hadamard(self.smoothed);
        let entry = value * self.input;
        let frame = &mut self.ring[self.now & mask];
        for line in 0..LINES {
            frame[line] = mixed[line] * self.gains[line] + entry;
        }
        self.now = self.now.wrapping_add(1);
        (
            heard[0] - heard[2] + heard[4] - heard[6],
            heard[1] - heard[3] + heard[5] - heard[7],
        )
    }
}

fn hadamard(v: [f32; LINES]) -> [f32; LINES] {
    let a: [f32; 4] = std::array::from_fn(|i| v[i] + v[i + 4]);
    let b: [f32; 4] = std::array::from_fn(|i| v[i] - v[i + 4]);
    let four = |v: [f32; 4]| {
        let (s, t, d, e) = (v[0] + v[2], v[1] + v[3], v[0] - v[2], v[1] - v[3]);
        [s + t, s - t, d + e, d - e]
    };
    let (a, b) = (four(a), four(b));
    [a[0], a[1], a[2], a[3], b[0], b[1], b[2], b[3]]
}

impl AudioNode for Lines {
    const ID: u64 = 0x706c_0002;
    type Inputs = typenum::U1;
    type Outputs = typenum::U2;

    fn reset(&mut self) {
        self.ring.fill([0.0; LINES]);
        self.smoothed = [0.0; LINES];
        self.now = 0;
    }

    fn set_sample_rate(&mut self, sample_rate: f64) {
        if sample_rate != self.rate {
            *self = Self::new(sample_rate);
        }
    }

    fn tick(&mut self, input: &Frame<f32, Self::Inputs>) -> Frame<f32, Self::Outputs> {
        let (left, right) = self.step(input[0]);
        [left, right].into()
    }

    fn process(&mut self, size: usize, input: &BufferRef, output: &mut BufferMut) {
        let input = input.channel_f32(0);
        let (left, right) = (output.channel_f32_mut(0), output.channel_f32_mut(1));
        for frame in 0..size {
            (left[frame], right[frame]) = self.step(input[frame]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fundsp::prelude32::noise;

    #[test]
    fn the_room_falls_by_sixty_decibels_in_its_time() {
        let rate = 48_000.0;
        let mut room = Lines::new(rate);
        let mut energy = Vec::new();
        for frame in 0..(SECONDS * rate) as usize {
            let value = if frame == 0 { 1.0 } else { 0.0 };
            let (left, right) = room.step(value);
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
        let mut source = noise().seed(1);
        let mut room = Lines::new(48_000.0);
        let (mut sent, mut heard) = (0.0, 0.0);
        for frame in 0..96_000 {
            let value = source.get_mono();
            let (left, right) = room.step(value);
            if frame > 48_000 {
                sent += f64::from(value * value);
                heard += f64::from(left * left + right * right) / 2.0;
            }
        }
        let decibels = 10.0 * (heard / sent).log10();
        assert!((-6.0..=1.0).contains(&decibels), "{decibels}");
    }
}

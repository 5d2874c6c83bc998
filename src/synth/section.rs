//! One instrument while a passage sounds: the notes it will play, those it is playing, and
//! its mix.

use fundsp::MAX_BUFFER_SIZE;

use super::sound::{Instrument, Tremolo};
use super::spectrum::factor;
use super::voice::{Order, Voice, Workshop};

/// Two sides and what goes into the room, for one block.
#[derive(Clone)]
pub(super) struct Mix {
    pub(super) left: [f32; MAX_BUFFER_SIZE],
    pub(super) right: [f32; MAX_BUFFER_SIZE],
    pub(super) sent: [f32; MAX_BUFFER_SIZE],
}

impl Mix {
    pub(super) const SILENT: Self = Self {
        left: [0.0; MAX_BUFFER_SIZE],
        right: [0.0; MAX_BUFFER_SIZE],
        sent: [0.0; MAX_BUFFER_SIZE],
    };
}

/// An instrument at work.
pub(super) struct Section {
    workshop: Workshop,
    waiting: std::iter::Peekable<std::vec::IntoIter<(usize, Order)>>,
    voices: Vec<Voice>,
    rate: f64,
}

impl Section {
    /// `orders` holds the first frame of each note, in time order.
    pub(super) fn new(instrument: &Instrument, orders: Vec<(usize, Order)>, rate: f64) -> Self {
        Self {
            workshop: Workshop::new(instrument, rate),
            waiting: orders.into_iter().peekable(),
            voices: Vec::new(),
            rate,
        }
    }

    /// Adds the block that begins at frame `now`.
    pub(super) fn add(&mut self, now: usize, mix: &mut Mix) {
        let end = now + MAX_BUFFER_SIZE;
        let starts = self.waiting.peek().is_some_and(|(start, _)| *start < end);
        if self.voices.is_empty() && !starts {
            return;
        }
        let mut own = Mix::SILENT;
        for voice in &mut self.voices {
            voice.add(&mut own.left, &mut own.right);
        }
        while let Some((start, order)) = self.waiting.next_if(|(start, _)| *start < end) {
            let mut voice = Voice::new(&mut self.workshop, &order);
            let from = start - now;
            voice.add(&mut own.left[from..], &mut own.right[from..]);
            self.voices.push(voice);
        }
        self.voices.retain(|voice| !voice.is_over());
        let shape = self.workshop.shape();
        if let Some(tremolo) = shape.tremolo {
            self.swell(tremolo, now, &mut own);
        }
        let send = factor(shape.room) as f32;
        for place in 0..MAX_BUFFER_SIZE {
            let (left, right) = (own.left[place], own.right[place]);
            mix.left[place] += left;
            mix.right[place] += right;
            mix.sent[place] += (left + right) * send;
        }
    }

    fn swell(&self, tremolo: Tremolo, now: usize, own: &mut Mix) {
        let lowest = factor(-tremolo.depth);
        let gain = |frame: usize| {
            let turns = tremolo.hertz * frame as f64 / self.rate;
            let part = 0.5 + 0.5 * (std::f64::consts::TAU * turns.fract()).cos();
            (lowest + (1.0 - lowest) * part) as f32
        };
        let (first, last) = (gain(now), gain(now + MAX_BUFFER_SIZE));
        let step = (last - first) / MAX_BUFFER_SIZE as f32;
        for place in 0..MAX_BUFFER_SIZE {
            let gain = first + step * place as f32;
            own.left[place] *= gain;
            own.right[place] *= gain;
        }
    }
}

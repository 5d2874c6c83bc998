//! Renders a passage in blocks. Owns what sounds when, the room and the end.

use fundsp::MAX_BUFFER_SIZE;
use fundsp::prelude32::{An, AudioUnit, BufferArray, U1, U2};

use super::band::{Band, Seat};
use super::hands::lateness;
use super::reverb::{Room, SECONDS as ROOM_SECONDS};
use super::section::{Mix, Section};
use super::settings::Settings;
use super::spectrum::MIDDLE_C;
use super::voice::{Order, smooth};
use crate::arranging::{Drum, Note, Passage, Voice};

/// Part of the room's time that is rendered after the last release.
const TAIL: f64 = 0.75;
/// Seconds of the fade to nothing at the end of the tail.
const FADE: f64 = 0.06;

/// Seconds that struck percussion rings, whatever its written length.
const RINGING: f64 = 2.5;

/// Renders a passage piece by piece, before the phrase is levelled. The pieces may have any
/// length; the samples are the same.
pub struct Renderer {
    sections: Vec<Section>,
    room: Option<An<Room>>,
    frames: usize,
    fade: usize,
    now: usize,
    block: [f32; 2 * MAX_BUFFER_SIZE],
    used: usize,
}

impl Renderer {
    /// Begins to render a passage: nothing is computed before samples are asked for.
    #[must_use]
    pub fn new(passage: &Passage, band: &Band, settings: &Settings) -> Self {
        let rate = f64::from(settings.rate);
        let frames = |seconds: f64| (seconds * rate).round() as usize;
        let mut sections = Vec::new();
        let mut release = 0.0f64;
        for (instrument, seats) in band.instruments() {
            let orders = orders(passage, &seats, settings);
            if !orders.is_empty() {
                sections.push(Section::new(instrument, orders, rate));
                release = release.max(instrument.shape.release / 1000.0);
            }
        }
        let written = passage
            .notes
            .iter()
            .map(|note| note.start + note.length)
            .fold(passage.length, u32::max);
        let tail = release + TAIL * ROOM_SECONDS;
        Self {
            sections,
            room: settings.room.then(|| An(Room::new(rate))),
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
            let block = &self.block[self.used..self.used + count];
            samples[done..done + count].copy_from_slice(block);
            self.used += count;
            done += count;
        }
    }

    fn next_block(&mut self) {
        let mut mix = Mix::SILENT;
        for section in &mut self.sections {
            section.add(self.now, &mut mix);
        }
        self.add_room(&mut mix);
        let sides = mix.left.iter().zip(&mix.right);
        for (frame, (left, right)) in self.block.chunks_exact_mut(2).zip(sides) {
            (frame[0], frame[1]) = (*left, *right);
        }
        if self.now + MAX_BUFFER_SIZE + self.fade > self.frames {
            self.fade_out();
        }
        self.now += MAX_BUFFER_SIZE;
        self.used = 0;
    }

    fn fade_out(&mut self) {
        for (frame, now) in self.block.chunks_exact_mut(2).zip(self.now..) {
            let to_go = self.frames.saturating_sub(now);
            let gain = smooth(to_go as f32 / self.fade as f32);
            frame[0] *= gain;
            frame[1] *= gain;
        }
    }

    fn add_room(&mut self, mix: &mut Mix) {
        let Some(room) = &mut self.room else {
            return;
        };
        let mut sent: BufferArray<U1> = BufferArray::new();
        let mut heard: BufferArray<U2> = BufferArray::new();
        sent.channel_f32_mut(0).copy_from_slice(&mix.sent);
        AudioUnit::process(
            room,
            MAX_BUFFER_SIZE,
            &sent.buffer_ref(),
            &mut heard.buffer_mut(),
        );
        for (side, dry) in [&mut mix.left, &mut mix.right].into_iter().enumerate() {
            for (value, wet) in dry.iter_mut().zip(heard.channel_f32(side)) {
                *value += wet;
            }
        }
    }
}

/// The notes of some seats with their first frames, in time order.
fn orders(passage: &Passage, seats: &[Seat], settings: &Settings) -> Vec<(usize, Order)> {
    let mut orders: Vec<(usize, Order)> = passage
        .notes
        .iter()
        .zip(0u64..)
        .filter(|(note, _)| seats.contains(&Seat::of(note.voice)))
        .map(|(note, number)| {
            let late = lateness(note, settings.seed).min(passage.seconds(note.length) / 4.0);
            let start = (passage.seconds(note.start) + late) * f64::from(settings.rate);
            let order = Order {
                late,
                ..order(passage, note, number, settings)
            };
            (start.round() as usize, order)
        })
        .collect();
    orders.sort_by_key(|(start, _)| *start);
    orders
}

fn order(passage: &Passage, note: &Note, number: u64, settings: &Settings) -> Order {
    let (hertz, least) = match note.voice {
        Voice::Bass | Voice::Upper(_) => (note.pitch.frequency(settings.a4), 0.0),
        Voice::Drum(Drum::Swirl) => (MIDDLE_C, 0.0),
        Voice::Drum(Drum::Ride | Drum::HiHat | Drum::Tap | Drum::Kick) => (MIDDLE_C, RINGING),
    };
    Order {
        hertz,
        strength: f64::from(note.strength.clamp(0.0, 1.0)),
        seconds: passage.seconds(note.length).max(least),
        late: 0.0,
        seed: settings.seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ number,
    }
}

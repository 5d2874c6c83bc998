//! The mixer as a rodio source: one that never ends and has the device's own shape, so
//! that rodio converts nothing.

use std::time::Duration;

use rodio::{ChannelCount, Sample, SampleRate, Source};

use super::Mixer;

/// Frames made at a time; less than any device's block.
const BLOCK: usize = 64;

/// Hands a mixer's frames to a device of any number of channels.
pub(super) struct Feed {
    mixer: Mixer,
    channels: ChannelCount,
    rate: SampleRate,
    block: [f32; 2 * BLOCK],
    frame: usize,
    channel: u16,
}

impl Feed {
    pub(super) fn new(mixer: Mixer, channels: ChannelCount, rate: SampleRate) -> Self {
        Self {
            mixer,
            channels,
            rate,
            block: [0.0; 2 * BLOCK],
            frame: BLOCK,
            channel: 0,
        }
    }
}

/// One channel of a stereo frame: both sides on a single one, silence beyond the front pair.
fn spread(left: f32, right: f32, channel: u16, channels: u16) -> f32 {
    match (channels, channel) {
        (1, _) => 0.5 * (left + right),
        (_, 0) => left,
        (_, 1) => right,
        (_, _) => 0.0,
    }
}

impl Iterator for Feed {
    type Item = Sample;

    fn next(&mut self) -> Option<Sample> {
        if self.frame == BLOCK {
            self.mixer.fill(&mut self.block);
            self.frame = 0;
        }
        let left = self.block[2 * self.frame];
        let right = self.block[2 * self.frame + 1];
        let sample = spread(left, right, self.channel, self.channels.get());
        self.channel += 1;
        if self.channel == self.channels.get() {
            self.channel = 0;
            self.frame += 1;
        }
        Some(sample)
    }
}

impl Source for Feed {
    fn current_span_len(&self) -> Option<usize> {
        None
    }

    fn channels(&self) -> ChannelCount {
        self.channels
    }

    fn sample_rate(&self) -> SampleRate {
        self.rate
    }

    fn total_duration(&self) -> Option<Duration> {
        None
    }
}

#[cfg(test)]
mod tests {
    use std::num::NonZero;
    use std::sync::Arc;

    use super::*;
    use crate::host::player::{Cue, CueId, Level, link};

    fn first_frame(channels: u16) -> Vec<f32> {
        let (mut remote, mixer) = link(48_000, Level::FULL);
        let samples: Arc<[f32]> = [0.5, -0.25].repeat(4800).into();
        let cue = Cue::new(samples, 48_000);
        remote.play(CueId::NONE.next(), cue).expect("room for one");
        let channels = NonZero::new(channels).expect("some channels");
        let rate = NonZero::new(48_000).expect("some rate");
        let settled = 1000 * usize::from(channels.get());
        let feed = Feed::new(mixer, channels, rate);
        feed.skip(settled)
            .take(usize::from(channels.get()))
            .collect()
    }

    #[test]
    fn every_number_of_channels_hears_both_sides() {
        assert_eq!(first_frame(1), [0.125]);
        assert_eq!(first_frame(2), [0.5, -0.25]);
        // The front pair comes first in every common order of loudspeakers (WAVE format).
        assert_eq!(first_frame(6), [0.5, -0.25, 0.0, 0.0, 0.0, 0.0]);
    }
}

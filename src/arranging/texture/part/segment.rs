//! A chord cut at the bar lines it crosses, and the beats in each piece.

use super::Groove;
use crate::arranging::setting::Setting;
use crate::arranging::voicing::Voicing;
use crate::theory::{Chord, Ticks};

/// The part of a chord that lies within one bar.
#[derive(Clone, Copy, Debug)]
pub(in crate::arranging::texture) struct Segment<'a> {
    /// Index of the chord in the setting.
    pub(in crate::arranging::texture) index: usize,
    pub(in crate::arranging::texture) chord: &'a Chord,
    pub(in crate::arranging::texture) voicing: &'a Voicing,
    pub(in crate::arranging::texture) start: Ticks,
    pub(in crate::arranging::texture) end: Ticks,
}

/// All chords of a setting, cut at the bars of `groove`.
pub(in crate::arranging::texture) fn segments(
    setting: &Setting,
    groove: Groove,
) -> Vec<Segment<'_>> {
    let mut pieces = Vec::new();
    for (index, (span, chord, voicing)) in setting.parts().enumerate() {
        let mut start = span.start;
        while start < span.end {
            let end = span.end.min((start / groove.bar + 1) * groove.bar);
            pieces.push(Segment {
                index,
                chord,
                voicing,
                start,
                end,
            });
            start = end;
        }
    }
    pieces
}

impl Segment<'_> {
    pub(in crate::arranging::texture) fn length(&self) -> Ticks {
        self.end - self.start
    }

    /// Beginning and end of each beat: the segment's own beginning, then the beats of the
    /// bar. A beat that would come at once after the beginning is left out.
    pub(in crate::arranging::texture) fn beats(&self, groove: Groove) -> Vec<(Ticks, Ticks)> {
        let soonest = self.start + groove.beat / 2;
        let next = soonest.div_ceil(groove.beat) * groove.beat;
        let starts: Vec<Ticks> = std::iter::once(self.start)
            .chain((next..self.end).step_by(groove.beat as usize))
            .collect();
        let ends = starts.iter().skip(1).copied().chain([self.end]);
        starts.iter().copied().zip(ends).collect()
    }

    /// The time `count` eighths after the beginning, at the end at the latest.
    pub(in crate::arranging::texture) fn eighths(&self, groove: Groove, count: u32) -> Ticks {
        // Off the beats there is nothing to swing.
        let groove = if groove.is_on_beat(self.start) {
            groove
        } else {
            groove.evened()
        };
        self.end.min(self.start + groove.eighths(count))
    }
}

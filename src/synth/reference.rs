//! What to tune to.

use crate::arranging::{Note, Passage, TICKS_PER_BEAT, Ticks, Voice};
use crate::theory::Pitch;

/// The reference tunings that a listener may choose, A4 in hertz.
pub const REFERENCE: std::ops::RangeInclusive<f64> = 430.0..=450.0;

/// One note held for `seconds`, such as A4 to tune an instrument by.
#[must_use]
pub fn tuning_note(pitch: Pitch, seconds: u32) -> Passage {
    // At sixty beats a minute a beat is a second.
    let length: Ticks = TICKS_PER_BEAT * seconds;
    Passage {
        tempo: 60.0,
        notes: vec![Note {
            start: 0,
            length,
            pitch,
            strength: 0.6,
            voice: Voice::Upper(0),
        }],
        chords: Vec::new(),
        length,
        bassist: false,
    }
}

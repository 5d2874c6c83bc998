//! Spelled notes, keys, numerals and chords. Owns how harmony is written and what
//! notes it means; knows nothing of sound, chance, files or teaching.

mod pitch;

pub use pitch::{IntervalClass, NotANote, OCTAVE, Pitch, PitchClass};

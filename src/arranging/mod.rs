//! From a progression to timed, spelled notes. Owns voicing, voice leading and
//! textures; may not touch sound or the screen.

mod passage;

pub use passage::{Note, Passage, Span, TICKS_PER_BEAT, Ticks, Voice};

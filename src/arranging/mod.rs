//! From a progression to timed, spelled notes. Owns voicing, voice leading and
//! textures; may not touch sound or the screen.

mod passage;

pub use passage::{Drum, Note, Passage, Span, Voice};

pub use crate::theory::{TICKS_PER_BEAT, Ticks};

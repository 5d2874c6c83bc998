//! From a progression to timed, spelled notes. Owns voicing, voice leading and
//! textures; may not touch sound or the screen.

mod arrange;
mod bass;
mod chance;
mod change;
mod faults;
mod fretboard;
mod leading;
mod manner;
mod motion;
mod palette;
mod passage;
mod register;
mod setting;
mod tendency;
mod texture;
mod voicing;

pub use arrange::{Arrangement, arrange, tonic_drone};
pub use faults::{VoiceLeading, faults, faults_of_change};
pub use manner::Manner;
pub use passage::{Drum, Note, Passage, Span, Strand, Voice};
pub use register::{BASS, BASS_REACH, TOP, UPPER, WIDEST_GAP, low_limit};
pub use setting::Setting;
pub use texture::{Card, Texture};
pub use voicing::Voicing;

pub use crate::theory::{TICKS_PER_BEAT, Ticks};

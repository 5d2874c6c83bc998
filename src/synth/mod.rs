//! From a sound file to voices, and from a passage to samples. Owns instruments, the room
//! and loudness; may not touch devices or files.

mod bank;
mod body;
mod catalogue;
mod loudness;
mod peaks;
mod reading;
mod render;
mod reverb;
mod sound;
mod spectrum;
mod voice;
mod weighting;

pub use catalogue::{built_in, find};
pub use loudness::loudness;
pub use peaks::true_peak;
pub use render::{CEILING, LOUDNESS, Renderer, Samples, Settings, render};
pub use sound::Sound;

//! From a sound file to voices, and from a passage to samples. Owns instruments, the room
//! and loudness; may not touch devices or files.

mod band;
mod bank;
mod body;
mod catalogue;
mod hands;
mod hiss;
mod loudness;
mod peaks;
mod reading;
mod reference;
mod render;
mod renderer;
mod reverb;
mod section;
mod settings;
mod sound;
mod spectrum;
mod voice;
mod weighting;

pub use band::Band;
pub use catalogue::{built_in, find, kit};
pub use loudness::loudness;
pub use peaks::true_peak;
pub use reference::{REFERENCE, tuning_note};
pub use render::{CEILING, Samples, render, render_band};
pub use renderer::Renderer;
pub use settings::{LOUDNESS, Settings};
pub use sound::{Kit, Sound};

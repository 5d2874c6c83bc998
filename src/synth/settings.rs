//! How to render.

/// The loudness of every phrase in LUFS: moderate, well below what speakers can do.
pub const LOUDNESS: f64 = -20.0;

/// How to render.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Frames a second, 8 000 to 192 000.
    pub rate: u32,
    /// The frequency of A4 in hertz, within [`super::REFERENCE`]; 440 by ISO 16.
    pub a4: f64,
    /// Loudness of the phrase in LUFS.
    pub level: f64,
    /// Chooses the small differences between attacks.
    pub seed: u64,
    /// Whether the room is heard.
    pub room: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            rate: 48_000,
            a4: 440.0,
            level: LOUDNESS,
            seed: 0,
            room: true,
        }
    }
}

//! From a passage to samples at an even loudness. Owns the final level.

use super::band::Band;
use super::hands::struck;
use super::loudness::loudness;
use super::peaks::limit;
use super::renderer::Renderer;
use super::settings::Settings;
use super::sound::Sound;
use super::spectrum::factor;
use crate::arranging::Passage;

/// No true peak is above this, in dBTP (EBU R 128 asks for at most −1).
pub const CEILING: f64 = -1.0;
/// Distance kept from the ceiling for the roughness of peak meters, in decibels.
const MARGIN: f64 = 0.15;

/// Sound in memory.
#[derive(Clone, Debug, PartialEq)]
pub struct Samples {
    /// Frames a second.
    pub rate: u32,
    /// Left and right in turn, each within ±1.
    pub interleaved: Vec<f32>,
}

impl Samples {
    /// The number of frames.
    #[must_use]
    pub fn frames(&self) -> usize {
        self.interleaved.len() / 2
    }

    /// The length in seconds.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.frames() as f64 / f64::from(self.rate)
    }
}

/// Sounds `passage` at an even loudness, with its room and its last release, by the players
/// that [`Band::for_passage`] chooses.
///
/// # Examples
/// ```
/// use plagal::arranging::{Arrangement, Texture, arrange};
/// use plagal::synth::{Settings, find, render};
/// use plagal::theory::{BareSix, Key, Line, Meter};
///
/// let line = Line::read("ii7 | V7 | I", Meter::FourFour, BareSix::AddedSixth)?;
/// let request = Arrangement {
///     texture: Texture::HeldChords,
///     tempo: 120.0,
///     variation: 0,
/// };
/// let passage = arrange(&line, Key::C_MAJOR, &request)?;
/// let piano = find("piano").expect("it is built in");
/// let samples = render(&passage, piano, &Settings::default());
/// // Three bars of two seconds each, and what rings on.
/// assert!(samples.seconds() > 6.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn render(passage: &Passage, sound: &Sound, settings: &Settings) -> Samples {
    render_band(passage, &Band::for_passage(sound, passage), settings)
}

/// Sounds `passage` like [`render`], each part by an instrument of its own.
#[must_use]
pub fn render_band(passage: &Passage, band: &Band, settings: &Settings) -> Samples {
    let struck = struck(passage, band);
    let mut renderer = Renderer::new(&struck, band, settings);
    let mut interleaved = vec![0.0; 2 * renderer.frames()];
    renderer.fill(&mut interleaved);
    level(&mut interleaved, settings);
    Samples {
        rate: settings.rate,
        interleaved,
    }
}

/// One gain for the whole phrase, then the ceiling.
fn level(samples: &mut [f32], settings: &Settings) {
    let Some(found) = loudness(samples, settings.rate) else {
        return;
    };
    let gain = factor(settings.level - found) as f32;
    for value in samples.iter_mut() {
        *value *= gain;
    }
    limit(samples, settings.rate, factor(CEILING - MARGIN) as f32);
}

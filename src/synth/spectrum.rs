//! From a layer and a note to partials: where they lie, how strong they begin and how
//! fast they die. Owns the physics of strings and bars.

use rand::RngExt as _;
use rand_chacha::ChaCha8Rng;

use super::bank::Partial;
use super::sound::{Decay, Mode, Modes, Strung, Tone};
use super::weighting::Weighting;

/// The pitch that sound files speak of: middle C at A4 = 440 Hz.
const MIDDLE_C: f64 = 261.625_565_3;
/// Ordinary strength, for which levels in sound files are meant.
pub(super) const ORDINARY: f64 = 0.6;
/// No partial lies above this part of the rate, nor above this frequency.
const HIGHEST_PART: f64 = 0.45;
const HIGHEST_HERTZ: f64 = 14_000.0;
/// Sixty decibels in nepers.
const SIXTY: f64 = 6.907_755_278_982_137;

/// A note as a layer sees it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Strike {
    pub(super) hertz: f64,
    /// 0 to 1.
    pub(super) strength: f64,
    pub(super) rate: f64,
}

impl Strike {
    /// Octaves above middle C.
    pub(super) fn octaves(&self) -> f64 {
        (self.hertz / MIDDLE_C).log2()
    }

    fn highest(&self) -> f64 {
        (self.rate * HIGHEST_PART).min(HIGHEST_HERTZ)
    }
}

/// A level in decibels as a factor.
pub(super) fn factor(decibels: f64) -> f64 {
    10f64.powf(decibels / 20.0)
}

impl Tone {
    fn gain(&self, strike: &Strike, hertz: f64) -> f64 {
        let corner = self.hertz
            * (self.follow * strike.octaves()).exp2()
            * (self.touch * (strike.strength - ORDINARY)).exp2();
        let ratio = hertz / corner;
        // A smooth knee: −3 dB at the corner whatever the slope.
        (1.0 + ratio * ratio).powf(-self.slope / 12.04)
    }
}

impl Decay {
    /// Nepers a second of a partial at `hertz` in a note.
    fn rate(&self, strike: &Strike, hertz: f64) -> f64 {
        let low = self.seconds * self.octave.powf(strike.octaves());
        let high = self.high * (5_000.0 / hertz).powi(2);
        SIXTY * (1.0 / low + 1.0 / high)
    }
}

/// The partials of a string set going at a point.
pub(super) fn string(layer: &Strung, strike: &Strike, chance: &mut ChaCha8Rng) -> Vec<Partial> {
    let stiffness = layer.stiffness * (strike.octaves() / layer.stiffness_octaves).exp2();
    let mut partials = Vec::with_capacity(2 * layer.partials);
    for number in (1..=layer.partials).map(|number| number as f64) {
        let stretch = ((1.0 + stiffness * number * number) / (1.0 + stiffness)).sqrt();
        let hertz = strike.hertz * number * stretch;
        if hertz > strike.highest() {
            break;
        }
        let comb = (std::f64::consts::PI * number * layer.at).sin().abs();
        let level = comb.max(0.02) / number * layer.tone.gain(strike, hertz);
        let decay = layer.decay.rate(strike, hertz);
        let varied = level * factor(chance.random_range(-0.5..0.5));
        partials.push(Partial {
            hertz,
            level: varied,
            decay,
            phase: chance.random_range(-0.6..0.6),
        });
        if let Some(after) = layer.after {
            partials.push(Partial {
                hertz: hertz * (after.cents / 1200.0).exp2(),
                level: varied * factor(after.level),
                decay: decay / after.longer,
                phase: chance.random_range(-0.6..0.6),
            });
        }
    }
    partials
}

/// The partials that a layer names.
pub(super) fn modes(layer: &Modes, strike: &Strike, chance: &mut ChaCha8Rng) -> Vec<Partial> {
    layer
        .modes
        .iter()
        .filter(|mode| strike.hertz * mode.ratio <= strike.highest())
        .map(|mode| partial(layer, *mode, strike, chance))
        .collect()
}

fn partial(layer: &Modes, mode: Mode, strike: &Strike, chance: &mut ChaCha8Rng) -> Partial {
    let hertz = strike.hertz * mode.ratio;
    let touched = mode.level + mode.touch * (strike.strength - ORDINARY) / (1.0 - ORDINARY);
    let held = mode.decay.is_none();
    let longer = layer.octave.powf(strike.octaves());
    Partial {
        hertz,
        level: factor(touched + chance.random_range(-0.4..0.4)) * layer.tone.gain(strike, hertz),
        decay: mode.decay.map_or(0.0, |seconds| SIXTY / (seconds * longer)),
        // Pipes speak in any phase; what is struck starts from rest.
        phase: if held {
            chance.random_range(0.0..std::f64::consts::TAU)
        } else {
            chance.random_range(-0.4..0.4)
        },
    }
}

/// Scales partials so that together they are as loud as a sine of amplitude `loud`
/// at 1 kHz.
pub(super) fn even_out(partials: &mut [Partial], loud: f64, weighting: &Weighting) {
    let power: f64 = partials
        .iter()
        .map(|partial| (partial.level * weighting.gain(partial.hertz)).powi(2))
        .sum();
    if power > 0.0 {
        let scale = loud / power.sqrt();
        for partial in partials {
            partial.level *= scale;
        }
    }
}

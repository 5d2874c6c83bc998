//! From a layer and a note to partials: where they lie, how strong they begin and how
//! fast they die. Owns the physics of strings and bars.

use std::f64::consts::{PI, TAU};

use rand::RngExt as _;
use rand_chacha::ChaCha8Rng;

use super::bank::Partial;
use super::sound::{Decay, Mode, Modes, Shimmer, Stiffness, Strung, Tone};
use super::weighting::Weighting;

/// The pitch that sound files speak of: middle C at A4 = 440 Hz.
pub(super) const MIDDLE_C: f64 = 261.625_565_3;
/// Ordinary strength, for which levels in sound files are meant.
pub(super) const ORDINARY: f64 = 0.6;
/// No partial lies above this part of the rate, nor above this frequency.
const HIGHEST_PART: f64 = 0.45;
const HIGHEST_HERTZ: f64 = 14_000.0;
/// Partials fainter than this, in decibels, do without companions.
const FAINT: f64 = -20.0;
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

impl Stiffness {
    fn of(&self, strike: &Strike) -> f64 {
        (self.middle * (strike.octaves() / self.octaves).exp2()).max(self.least)
    }
}

/// How much a partial moves at a point of the string; never quite nothing, since no
/// finger or pole is a point.
fn comb(number: f64, at: f64) -> f64 {
    (PI * number * at).sin().abs().max(0.08)
}

/// The partials of a string set going at a point.
pub(super) fn string(layer: &Strung, strike: &Strike, chance: &mut ChaCha8Rng) -> Vec<Partial> {
    let stiffness = layer.stiffness.of(strike);
    let mut partials = Vec::with_capacity(2 * layer.partials);
    for place in 1..=layer.partials {
        let number = place as f64;
        let stretch = ((1.0 + stiffness * number * number) / (1.0 + stiffness)).sqrt();
        let hertz = strike.hertz * number * stretch;
        if hertz > strike.highest() {
            break;
        }
        let heard = layer.pickup.map_or(1.0, |at| comb(number, at));
        let level = comb(number, layer.at) * heard / number * layer.tone.gain(strike, hertz);
        let decay = layer.decay.rate(strike, hertz);
        let varied = level * factor(chance.random_range(-0.5..0.5));
        let partial = Partial {
            hertz,
            level: varied,
            decay,
            phase: chance.random_range(-0.6..0.6),
        };
        partials.push(partial);
        if let Some(after) = layer.after.filter(|after| place <= after.partials) {
            // In phase with the first sound, or the pitch would slide when it takes over.
            partials.push(Partial {
                hertz: hertz * (after.cents / 1200.0).exp2(),
                level: varied * factor(after.level),
                decay: decay / after.longer,
                ..partial
            });
        }
    }
    partials
}

/// The partials that a layer names.
pub(super) fn modes(layer: &Modes, strike: &Strike, chance: &mut ChaCha8Rng) -> Vec<Partial> {
    let mut partials = Vec::with_capacity(3 * layer.modes.len());
    for mode in &layer.modes {
        if strike.hertz * mode.ratio > strike.highest() {
            continue;
        }
        let partial = mode_partial(layer, *mode, strike, chance);
        partials.push(partial);
        if let Some(shimmer) = layer.shimmer.filter(|_| mode.level > FAINT) {
            partials.extend(companions(&partial, shimmer, chance));
        }
    }
    partials
}

fn mode_partial(layer: &Modes, mode: Mode, strike: &Strike, chance: &mut ChaCha8Rng) -> Partial {
    let hertz = strike.hertz * mode.ratio;
    let touched = mode.level + mode.touch * (strike.strength - ORDINARY) / (1.0 - ORDINARY);
    let longer = layer.octave.powf(strike.octaves());
    Partial {
        hertz,
        level: factor(touched + chance.random_range(-0.4..0.4)) * layer.tone.gain(strike, hertz),
        decay: mode.decay.map_or(0.0, |seconds| SIXTY / (seconds * longer)),
        phase: match mode.decay {
            // Pipes speak in any phase; what is struck starts from rest.
            None => chance.random_range(0.0..TAU),
            Some(_) => chance.random_range(-0.4..0.4),
        },
    }
}

/// Sidebands that add up to a swelling alone: their phases lie as far from the partial's
/// on either side.
fn companions(partial: &Partial, shimmer: Shimmer, chance: &mut ChaCha8Rng) -> [Partial; 2] {
    let away = partial.hertz * ((shimmer.cents / 1200.0).exp2() - 1.0);
    let turned = chance.random_range(0.0..TAU);
    [1.0, -1.0].map(|side| Partial {
        hertz: partial.hertz + side * away,
        level: partial.level * factor(shimmer.level),
        phase: partial.phase + side * turned,
        ..*partial
    })
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

//! How loud: decibels below full scale, never above.

use std::fmt;

/// A playing level in decibels, from [`Level::SILENT`] to 0 (the buffer as it is).
///
/// It can only turn down: rendered buffers already carry the loudest that is fit to hear.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Level(f32);

impl Level {
    /// −60 dB and below: nothing is heard.
    pub const SILENT: Self = Self(-60.0);
    /// As loud as was rendered.
    pub const FULL: Self = Self(0.0);
    /// Where a first session starts: moderate, because headphones may be on.
    pub const START: Self = Self(-12.0);

    /// The nearest level in range; not a number counts as silent.
    #[must_use]
    pub fn from_decibels(decibels: f32) -> Self {
        if decibels.is_nan() {
            return Self::SILENT;
        }
        Self(decibels.clamp(Self::SILENT.0, Self::FULL.0))
    }

    /// Decibels against full level, −60 to 0.
    #[must_use]
    pub fn decibels(self) -> f32 {
        self.0
    }

    /// Louder (or softer, if negative) by `decibels`, within range.
    #[must_use]
    pub fn louder_by(self, decibels: f32) -> Self {
        Self::from_decibels(self.0 + decibels)
    }

    /// The factor on amplitude, 0 to 1.
    #[must_use]
    pub fn amplitude(self) -> f32 {
        if self <= Self::SILENT {
            0.0
        } else {
            10f32.powf(self.0 / 20.0)
        }
    }
}

impl Default for Level {
    fn default() -> Self {
        Self::START
    }
}

impl fmt::Display for Level {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if *self <= Self::SILENT {
            f.write_str("off")
        } else {
            write!(f, "{:.0} dB", self.0)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decibels_follow_the_definition() {
        // Definition of the decibel for amplitudes: 20 log10(a / a0); -20 dB is a tenth.
        assert!((Level::from_decibels(-20.0).amplitude() - 0.1).abs() < 1e-6);
        assert!((Level::from_decibels(-6.0206).amplitude() - 0.5).abs() < 1e-5);
    }

    #[test]
    fn it_never_amplifies() {
        for asked in [0.1, 12.0, f32::INFINITY] {
            assert_eq!(Level::from_decibels(asked).amplitude(), 1.0, "{asked}");
        }
        for asked in [-60.0, -300.0, f32::NEG_INFINITY, f32::NAN] {
            assert_eq!(Level::from_decibels(asked).amplitude(), 0.0, "{asked}");
        }
    }
}

//! The K-weighting of ITU-R BS.1770: how loud a frequency counts. Owns its two filters
//! at any rate.

use std::f64::consts::PI;

/// Coefficients of a second-order filter, `a0` being 1.
#[derive(Clone, Copy, Debug)]
pub(super) struct Biquad {
    pub(super) b: [f64; 3],
    pub(super) a: [f64; 2],
}

/// The head's shelf and the low-frequency roll-off, for one rate.
#[derive(Clone, Copy, Debug)]
pub(super) struct Weighting {
    pub(super) shelf: Biquad,
    pub(super) roll_off: Biquad,
    rate: f64,
}

impl Weighting {
    /// The analogue prototype behind the standard's table for 48 kHz, warped to `rate`.
    pub(super) fn new(rate: f64) -> Self {
        Self {
            shelf: shelf(rate),
            roll_off: roll_off(rate),
            rate,
        }
    }

    /// Amplification at `hertz`, as a factor; 1 near 1 kHz.
    pub(super) fn gain(&self, hertz: f64) -> f64 {
        let omega = 2.0 * PI * hertz / self.rate;
        // The standard's −0.691 dB makes 1 kHz neutral.
        self.shelf.gain(omega) * self.roll_off.gain(omega) * 10f64.powf(-0.691 / 20.0)
    }
}

fn shelf(rate: f64) -> Biquad {
    let (hertz, gain, q) = (
        1_681.974_450_955_533,
        3.999_843_853_973_347,
        0.707_175_236_955_419_6,
    );
    let k = (PI * hertz / rate).tan();
    let high = 10f64.powf(gain / 20.0);
    let band = high.powf(0.499_666_774_154_541_6);
    let norm = 1.0 + k / q + k * k;
    Biquad {
        b: [
            (high + band * k / q + k * k) / norm,
            2.0 * (k * k - high) / norm,
            (high - band * k / q + k * k) / norm,
        ],
        a: [2.0 * (k * k - 1.0) / norm, (1.0 - k / q + k * k) / norm],
    }
}

fn roll_off(rate: f64) -> Biquad {
    let (hertz, q) = (38.135_470_876_024_44, 0.500_327_037_323_877_3);
    let k = (PI * hertz / rate).tan();
    let norm = 1.0 + k / q + k * k;
    Biquad {
        b: [1.0, -2.0, 1.0],
        a: [2.0 * (k * k - 1.0) / norm, (1.0 - k / q + k * k) / norm],
    }
}

impl Biquad {
    /// The amplification at `omega` radians a frame.
    fn gain(&self, omega: f64) -> f64 {
        let size = |c: [f64; 3]| {
            let real = c[0] + c[1] * omega.cos() + c[2] * (2.0 * omega).cos();
            let imaginary = c[1] * omega.sin() + c[2] * (2.0 * omega).sin();
            real.hypot(imaginary)
        };
        size(self.b) / size([1.0, self.a[0], self.a[1]])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_coefficients_at_48_khz_are_those_of_the_standard() {
        // ITU-R BS.1770-4, tables 1 and 2.
        let weighting = Weighting::new(48_000.0);
        let expected = [
            (weighting.shelf.b[0], 1.535_124_859_586_97),
            (weighting.shelf.b[1], -2.691_696_189_406_38),
            (weighting.shelf.b[2], 1.198_392_810_852_85),
            (weighting.shelf.a[0], -1.690_659_293_182_41),
            (weighting.shelf.a[1], 0.732_480_774_215_85),
            (weighting.roll_off.a[0], -1.990_047_454_833_98),
            (weighting.roll_off.a[1], 0.990_072_250_366_21),
        ];
        for (found, table) in expected {
            assert!((found - table).abs() < 1e-8, "{found} is not {table}");
        }
    }

    #[test]
    fn a_kilohertz_counts_as_it_is() {
        // BS.1770: a 997 Hz sine is the neutral point.
        for rate in [44_100.0, 48_000.0] {
            let decibels = 20.0 * Weighting::new(rate).gain(997.0).log10();
            assert!(decibels.abs() < 0.02, "{decibels}");
        }
    }
}

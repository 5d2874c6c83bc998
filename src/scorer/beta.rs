//! The beta distribution: how sure one may be of a rate after few answers.

/// The chance that a rate with this Beta(`a`, `b`) belief lies below `x`: the regularised
/// incomplete beta function, by its continued fraction (Abramowitz & Stegun 26.5.8,
/// evaluated after Lentz).
pub(super) fn below(x: f64, a: f64, b: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if x >= 1.0 {
        return 1.0;
    }
    let scale = libm::exp(
        libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b)
            + a * libm::log(x)
            + b * libm::log1p(-x),
    );
    // The fraction converges fast on its own side of the mean.
    if x < (a + 1.0) / (a + b + 2.0) {
        scale * fraction(x, a, b) / a
    } else {
        1.0 - scale * fraction(1.0 - x, b, a) / b
    }
}

fn fraction(x: f64, a: f64, b: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let away_from_zero = |v: f64| if v.abs() < TINY { TINY } else { v };
    let mut c = 1.0;
    let mut d = 1.0 / away_from_zero(1.0 - (a + b) * x / (a + 1.0));
    let mut result = d;
    for step in 1..300_u32 {
        let m = f64::from(step);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let before = result;
        for term in [even, odd] {
            d = 1.0 / away_from_zero(1.0 + term * d);
            c = away_from_zero(1.0 + term / c);
            result *= c * d;
        }
        if (result - before).abs() < 1e-14 * result.abs() {
            break;
        }
    }
    result
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn agrees_with_closed_forms() {
        // Beta(1, b): 1 − (1 − x)^b. Beta(a, 1): x^a. Beta(a, a) at 1/2: 1/2.
        for x in [0.01, 0.3, 0.75, 0.99] {
            for n in [1, 2, 8, 60] {
                let k = f64::from(n);
                assert!((below(x, 1.0, k) - (1.0 - (1.0 - x).powi(n))).abs() < 1e-12);
                assert!((below(x, k, 1.0) - x.powi(n)).abs() < 1e-12);
                assert!((below(0.5, k, k) - 0.5).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn agrees_with_the_binomial_sum() {
        // Abramowitz & Stegun 26.5.24: I_x(a, n − a + 1) is the chance of at least a
        // successes in n trials.
        let (n, x) = (14_i32, 0.75_f64);
        for a in 1..=n {
            let mut sum = 0.0;
            let mut choose = 1.0;
            for k in 0..=n {
                if k >= a {
                    sum += choose * x.powi(k) * (1.0 - x).powi(n - k);
                }
                choose *= f64::from(n - k) / f64::from(k + 1);
            }
            let found = below(x, f64::from(a), f64::from(n - a + 1));
            assert!(
                (found - sum).abs() < 1e-12,
                "a = {a}: {found} against {sum}"
            );
        }
    }
}

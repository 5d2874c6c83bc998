//! Harmonic rhythm: how long each chord of a line lasts.

use rand::{Rng, RngExt};

use crate::theory::{Meter, Ticks};

/// Draws lengths for `chords` chords that together fill `bars` bars: whole bars, two bars,
/// or in 4/4 halves of one. The last chord has at least a whole bar. Nothing if the
/// chords do not fit.
pub(super) fn lengths(
    chords: usize,
    bars: u32,
    meter: Meter,
    random: &mut impl Rng,
) -> Option<Vec<Ticks>> {
    let bars = bars as usize;
    let (most, least) = capacity(bars, meter);
    if chords > most || chords < least {
        return None;
    }
    let mut shares = vec![1; bars];
    if chords > bars {
        for bar in choose(bars - 1, chords - bars, random) {
            shares[bar] = 2;
        }
    }
    let mut lengths: Vec<Ticks> = shares
        .iter()
        .flat_map(|share| std::iter::repeat_n(meter.bar() / share, *share as usize))
        .collect();
    // With fewer chords than bars some last two; the last chord is the first to.
    let spare = bars.saturating_sub(chords);
    if spare > 0 {
        lengths.truncate(chords);
        lengths[chords - 1] += meter.bar();
        for chord in choose(chords - 1, spare - 1, random) {
            lengths[chord] += meter.bar();
        }
    }
    Some(lengths)
}

/// The most and the fewest chords that bars can hold.
pub(super) fn capacity(bars: usize, meter: Meter) -> (usize, usize) {
    let most = match meter {
        Meter::FourFour => 2 * bars - 1,
        Meter::TwoFour | Meter::ThreeFour => bars,
    };
    (most, bars.div_ceil(2))
}

/// `count` different numbers below `limit`.
fn choose(limit: usize, count: usize, random: &mut impl Rng) -> Vec<usize> {
    let mut all: Vec<usize> = (0..limit).collect();
    for at in 0..count.min(limit) {
        let other = random.random_range(at..limit);
        all.swap(at, other);
    }
    all.truncate(count);
    all
}

#[cfg(test)]
mod tests {
    use rand::SeedableRng;
    use rand_chacha::ChaCha8Rng;

    use super::*;

    #[test]
    fn lengths_fill_the_bars_and_end_on_a_whole_one() {
        let mut random = ChaCha8Rng::seed_from_u64(1);
        for meter in Meter::ALL {
            for bars in 2..=32 {
                let (most, least) = capacity(bars, meter);
                for chords in least..=most {
                    let lengths = lengths(chords, bars as u32, meter, &mut random)
                        .unwrap_or_else(|| panic!("{chords} in {bars} bars of {meter}"));
                    assert_eq!(lengths.len(), chords);
                    assert_eq!(lengths.iter().sum::<Ticks>(), meter.bar() * bars as Ticks);
                    assert!(lengths[chords - 1] >= meter.bar());
                }
            }
        }
    }
}

//! Drawing by lot.

use rand::RngExt;
use rand_chacha::ChaCha8Rng;

/// All things, each as early as its weight, above 0, says: drawn without replacement in
/// proportion to the weights (Efraimidis and Spirakis, "Weighted random sampling with a
/// reservoir", 2006, from memory).
pub(super) fn drawn<T>(
    things: impl IntoIterator<Item = (T, f64)>,
    random: &mut ChaCha8Rng,
) -> impl Iterator<Item = T> {
    let mut lots: Vec<(f64, T)> = things
        .into_iter()
        .map(|(thing, weight)| {
            let draw: f64 = random.random_range(f64::MIN_POSITIVE..1.0);
            (-libm::log(draw) / weight, thing)
        })
        .collect();
    lots.sort_by(|one, other| one.0.total_cmp(&other.0));
    lots.into_iter().map(|(_, thing)| thing)
}

#[cfg(test)]
mod tests {
    use rand::SeedableRng;

    use super::*;

    #[test]
    fn what_weighs_three_times_as_much_comes_first_three_times_in_four() {
        let mut random = ChaCha8Rng::seed_from_u64(4);
        let first =
            |random: &mut ChaCha8Rng| drawn([("heavy", 3.0), ("light", 1.0)], random).next();
        let heavy = (0..4000)
            .filter(|_| first(&mut random) == Some("heavy"))
            .count();
        // Five standard deviations of a binomial of 4000 and 3/4 are 137.
        assert!(heavy.abs_diff(3000) < 137, "{heavy}");
    }
}

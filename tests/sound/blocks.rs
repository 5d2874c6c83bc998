//! The same passage gives the same samples, in pieces of any length.

use plagal::synth::{Band, Renderer, Settings, Sound, built_in, render};
use proptest::prelude::{ProptestConfig, prop, proptest};

use super::notes::phrase;

fn in_pieces(sound: &Sound, sizes: &[usize]) -> Vec<f32> {
    let mut renderer = Renderer::new(&phrase(), &Band::of(sound), &Settings::default());
    let mut samples = vec![0.0; 2 * renderer.frames()];
    let mut rest = &mut samples[..];
    for size in sizes.iter().cycle() {
        if rest.is_empty() {
            break;
        }
        let (piece, later) = rest.split_at_mut((*size).min(rest.len()));
        renderer.fill(piece);
        rest = later;
    }
    samples
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]
    #[test]
    fn pieces_do_not_matter(sizes in prop::collection::vec(1usize..3000, 1..6)) {
        for sound in built_in() {
            let whole = in_pieces(sound, &[usize::MAX]);
            assert!(in_pieces(sound, &sizes) == whole, "{} in {sizes:?}", sound.id);
        }
    }
}

#[test]
fn the_same_seed_gives_the_same_samples_and_another_seed_others() {
    for sound in built_in() {
        let of = |seed| {
            let settings = Settings {
                seed,
                ..Settings::default()
            };
            render(&phrase(), sound, &settings)
        };
        assert!(of(1) == of(1), "{}", sound.id);
        assert!(of(1) != of(2), "{}", sound.id);
    }
}

#[test]
fn every_value_is_finite() {
    for sound in built_in() {
        for rate in [8_000, 44_100, 48_000, 96_000] {
            let settings = Settings {
                rate,
                ..Settings::default()
            };
            let samples = render(&phrase(), sound, &settings);
            assert!(samples.interleaved.iter().all(|value| value.is_finite()));
            assert!(samples.interleaved.iter().any(|value| value.abs() > 0.05));
        }
    }
}

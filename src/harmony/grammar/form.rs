//! Form: the phrases of a line, and which of them begin alike.

use rand::{Rng, RngExt};

/// A phrase of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Phrase {
    pub(super) bars: usize,
    /// An earlier phrase that this one begins like, and for how many bars.
    pub(super) like: Option<(usize, usize)>,
    /// Whether it is a middle section that stands against those before it.
    pub(super) contrasts: bool,
}

const fn new(bars: usize) -> Phrase {
    Phrase {
        bars,
        like: None,
        contrasts: false,
    }
}

const fn contrast(bars: usize) -> Phrase {
    Phrase {
        contrasts: true,
        ..new(bars)
    }
}

const fn like(phrase: usize, shared: usize, bars: usize) -> Phrase {
    Phrase {
        like: Some((phrase, shared)),
        ..new(bars)
    }
}

/// Draws the phrases of a line of `bars` bars: a single phrase, a question and an answer
/// that begins like it, three lines as in a blues, sections A A B A or A B A C.
pub(super) fn form(bars: usize, random: &mut impl Rng) -> Vec<Phrase> {
    let pick = |forms: Vec<Vec<Phrase>>, random: &mut dyn FnMut(usize) -> usize| {
        let at = random(forms.len());
        forms.into_iter().nth(at).expect("the draw is in range")
    };
    let mut below = |limit: usize| random.random_range(0..limit);
    match bars {
        0..=5 | 7 => vec![new(bars)],
        6 => pick(vec![vec![new(6)], vec![new(4), new(2)]], &mut below),
        8 => pick(
            vec![
                vec![new(8)],
                vec![new(4), new(4)],
                vec![new(4), like(0, 2, 4)],
            ],
            &mut below,
        ),
        12 => pick(
            vec![
                vec![new(4), new(4), new(4)],
                vec![new(4), like(0, 2, 4), new(4)],
                vec![new(8), new(4)],
            ],
            &mut below,
        ),
        16 => pick(
            vec![
                vec![new(8), like(0, 4, 8)],
                vec![new(4), like(0, 3, 4), contrast(4), like(0, 2, 4)],
                vec![new(4), new(4), like(0, 4, 4), new(4)],
                vec![new(8), new(8)],
            ],
            &mut below,
        ),
        24 => pick(
            vec![
                vec![new(8), new(8), new(8)],
                vec![new(8), like(0, 6, 8), contrast(8)],
            ],
            &mut below,
        ),
        32 => pick(
            vec![
                vec![new(8), like(0, 7, 8), contrast(8), like(0, 6, 8)],
                vec![new(8), new(8), like(0, 8, 8), new(8)],
                vec![new(8), new(8), contrast(8), like(0, 4, 8)],
            ],
            &mut below,
        ),
        _ => split(bars),
    }
}

/// Phrases of eight and four bars, the odd bars in the last.
fn split(bars: usize) -> Vec<Phrase> {
    let mut phrases = Vec::new();
    let mut left = bars;
    while left >= 16 {
        phrases.push(new(8));
        left -= 8;
    }
    if left >= 9 {
        phrases.push(new(4));
        left -= 4;
    }
    phrases.push(new(left));
    phrases
}

#[cfg(test)]
mod tests {
    use rand::SeedableRng;
    use rand_chacha::ChaCha8Rng;

    use super::*;

    #[test]
    fn phrases_fill_the_bars_and_are_like_earlier_ones() {
        let mut random = ChaCha8Rng::seed_from_u64(1);
        for bars in 2..=32 {
            for _ in 0..20 {
                let phrases = form(bars, &mut random);
                assert_eq!(phrases.iter().map(|p| p.bars).sum::<usize>(), bars);
                for (index, phrase) in phrases.iter().enumerate() {
                    if let Some((model, shared)) = phrase.like {
                        assert!(model < index && shared <= phrase.bars);
                        assert!(shared <= phrases[model].bars);
                    }
                }
            }
        }
    }
}

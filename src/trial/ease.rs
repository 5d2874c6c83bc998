//! How much an exemplar's difficulty matters to a simulated learner.

use super::chance::Chance;
use crate::journal::Difficulty;

/// What a feature may cost a learner from its easiest to its hardest, in logits: evenly
/// from nothing to this much, whatever the scorer takes it for.
const HEAVIEST: f64 = 1.2;

/// What the features of exemplars weigh for one learner.
#[derive(Clone, Debug)]
pub(super) struct Ease {
    weights: Difficulty,
    average: Difficulty,
}

impl Ease {
    /// For a learner whose abilities are those in the average exemplar.
    pub(super) fn new(average: Difficulty, chance: &mut Chance) -> Self {
        let mut weight = || HEAVIEST * chance.unit();
        Self {
            weights: Difficulty {
                inversion: weight(),
                texture: weight(),
                tempo: weight(),
                similarity: weight(),
            },
            average,
        }
    }

    /// How much easier than the average exemplar this one is, in logits.
    pub(super) fn of(&self, exemplar: Difficulty) -> f64 {
        let (weights, average) = (self.weights, self.average);
        weights.inversion * (average.inversion - exemplar.inversion)
            + weights.texture * (average.texture - exemplar.texture)
            + weights.tempo * (average.tempo - exemplar.tempo)
            + weights.similarity * (average.similarity - exemplar.similarity)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ease(seed: u64) -> Ease {
        Ease::new(Difficulty::default(), &mut Chance::new(seed, 5))
    }

    #[test]
    fn what_is_easy_for_one_is_hard_for_another() {
        let hidden = Difficulty {
            texture: 1.0,
            tempo: 0.0,
            ..Difficulty::default()
        };
        let found: Vec<f64> = (0..400).map(|seed| ease(seed).of(hidden)).collect();
        let easier = found.iter().filter(|ease| **ease > 0.0).count();
        // A busier texture at a lower tempo: half of the learners find it easier.
        assert!((160..=240).contains(&easier), "{easier}");
        let far = found.iter().filter(|ease| ease.abs() > 0.2).count();
        assert!(far > 100, "{far}");
    }

    #[test]
    fn the_average_exemplar_is_neither_easy_nor_hard() {
        assert!(ease(3).of(Difficulty::default()).abs() < 1e-12);
    }
}

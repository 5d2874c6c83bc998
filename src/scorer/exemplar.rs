//! How hard an exemplar should be: easy at first, then so that about three answers in
//! four come right, as far as the exercise leaves a choice.

use super::ability::Gaussian;
use super::choice::{Exemplar, FEW};
use super::fold::Scorer;
use super::reach::Reach;
use super::tally::Tally;
use crate::quiz::{Aim, Hardness, Held};

/// The success that exemplars are steered towards, and the range that is good enough.
const AIM: f64 = 0.78;

/// Key and sound stay put for this many answers.
const HELD: u32 = 4;

/// So many answers without movement call for an explanation.
const STALLED: u32 = 12;

/// Among few devices one of which makes no headway every fourth question comes with an
/// explanation, whatever is asked.
const EXPLAINED: u64 = 4;

/// How many steps of difficulty are tried.
const STEPS: u32 = 20;

impl Exemplar {
    /// What the next question should be like, in the key and sound held.
    #[must_use]
    pub fn aim(&self, held: Option<Held>) -> Aim {
        let wanted = self.difficulty;
        Aim {
            hardness: Some(Hardness {
                inversion: wanted.inversion,
                texture: wanted.texture,
                tempo: wanted.tempo,
            }),
            held,
            explain: self.explain,
        }
    }
}

impl Scorer {
    /// Among few devices the exemplars follow the pupil: were they as hard as the device is
    /// easy, tempo and texture would tell which it is.
    pub(super) fn exemplar(
        &self,
        device: usize,
        pool: &[usize],
        reach: &Reach,
        now: u64,
    ) -> Exemplar {
        let of: &[usize] = if pool.len() <= FEW { pool } else { &[device] };
        let beliefs: Vec<Gaussian> = of.iter().map(|one| self.belief(*one, now)).collect();
        let count = of.len() as f64;
        let predicted = |level: f64, beliefs: &[Gaussian]| {
            let ease = self.model.ease(reach.at(level), reach.key_setting);
            let response = self.response(reach.answers, ease * self.weight_of_ease());
            let each = beliefs.iter().map(|belief| response.expected(*belief));
            each.sum::<f64>() / beliefs.len() as f64
        };
        let asked = of.iter().map(|one| self.tallies[*one].asked).sum::<u32>();
        let is_new = f64::from(asked) < f64::from(HELD) * count;
        let stalled = of.iter().any(|one| stalled(&self.tallies[*one]));
        let explain = stalled && (of.len() == 1 || self.turn.is_multiple_of(EXPLAINED));
        let level = if is_new || stalled && of.len() == 1 {
            0.0
        } else {
            (0..=STEPS)
                .map(|step| f64::from(step) / f64::from(STEPS))
                .rfind(|level| predicted(*level, &beliefs) >= AIM)
                .unwrap_or(0.0)
        };
        Exemplar {
            difficulty: reach.at(level),
            predicted: predicted(level, &[self.belief(device, now)]),
            hold_key_and_sound: is_new,
            explain,
        }
    }
}

/// The last dozen answers are mostly wrong and no better at their end.
pub(super) fn stalled(tally: &Tally) -> bool {
    let half = STALLED / 2;
    let (later, of) = tally.window(0, half);
    let (earlier, before) = tally.window(half, half);
    of == half && before == half && later <= earlier && later + earlier < STALLED * 2 / 3
}

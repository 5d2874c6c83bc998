//! How hard an exemplar should be: easy at first, then so that about three answers in
//! four come right, as far as the exercise leaves a choice.

use super::choice::Exemplar;
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
    pub(super) fn exemplar(&self, device: usize, reach: &Reach, now: u64) -> Exemplar {
        let tally = &self.tallies[device];
        let belief = self.belief(device, now);
        let predicted = |level: f64| {
            let ease = self.model.ease(reach.at(level), reach.key_setting);
            let response = self.response(reach.answers, ease * self.weight_of_ease());
            response.expected(belief)
        };
        let explain = stalled(tally);
        let level = if tally.asked < HELD || explain {
            0.0
        } else {
            (0..=STEPS)
                .map(|step| f64::from(step) / f64::from(STEPS))
                .rfind(|level| predicted(*level) >= AIM)
                .unwrap_or(0.0)
        };
        Exemplar {
            difficulty: reach.at(level),
            predicted: predicted(level),
            hold_key_and_sound: tally.asked < HELD,
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

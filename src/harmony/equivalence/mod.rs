//! Which answers are the same, and how near a wrong one comes.
//!
//! Answers are compared by function. Where the same notes have several names, the
//! resolution and the bass decide which of them are right.

mod compare;
mod names;
mod same_notes;
#[cfg(test)]
mod tests;
mod tier;

pub use names::{current_name, usual_name};
pub use tier::Tier;

use super::analysis::{Context, role};
use super::role::Role;
use crate::devices::{Kind, Shape};
use crate::theory::{Line, Mode, Numeral, Quality, Third};
use compare::{bears_name, is_applied, kin, readings, same_function, same_notes, sounds_alike};
use names::{spellings, usual_in};
use same_notes::other_names;

/// A chord of a line in its context, ready to judge answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Sounding {
    pub truth: Numeral,
    pub role: Role,
    pub mode: Mode,
    context: Context,
    names: Vec<Numeral>,
}

impl Sounding {
    /// The chord in `slot` of a line. What follows the last chord is the first.
    #[must_use]
    pub fn of(line: &Line, slot: usize, mode: Mode) -> Self {
        let truth = line.slots()[slot].numeral.clone();
        Self::new(truth, Context::in_line(line, slot, mode))
    }

    /// A chord in a context.
    #[must_use]
    pub fn new(truth: Numeral, context: Context) -> Self {
        let role = role(&truth, &context);
        let names = other_names(&truth, role, &context);
        Self {
            truth,
            role,
            mode: context.mode,
            context,
            names,
        }
    }

    /// The name by which the chord is asked and answered.
    #[must_use]
    pub fn usual(&self) -> Numeral {
        usual_in(&self.truth, self.role, &self.context)
    }

    /// The numerals that count as right, the usual one first, each in its plainest form.
    #[must_use]
    pub fn accepted(&self) -> Vec<Numeral> {
        let plain = self.truth.without_tensions();
        let mut accepted = vec![self.usual()];
        let mut add = |numeral: Numeral| {
            if !accepted.contains(&numeral) && self.judge(&numeral).is_right() {
                accepted.push(numeral);
            }
        };
        add(plain.clone());
        add(plain.without_bass());
        add(plain_name(&plain));
        for name in spellings(&plain, self.role, &self.context) {
            add(name);
        }
        for name in &self.names {
            add(name.clone());
        }
        accepted
    }

    /// How near an answer comes. In minor an answer may leave the flats of ♭III, ♭VI and
    /// ♭VII out; it is then read in the way that does it most good.
    #[must_use]
    pub fn judge(&self, answer: &Numeral) -> Tier {
        readings(answer, self.mode)
            .iter()
            .map(|reading| self.judge_reading(reading))
            .min()
            .expect("an answer has at least the reading that is written")
    }

    /// Whether a chord in the same place does what this one does, so that no ear could
    /// prefer one name to the other: it is right for it or it for that one, or both are
    /// named for the same role by the same notes.
    #[must_use]
    pub fn is_as_good(&self, other: &Self) -> bool {
        self.judge(&other.truth).is_right()
            || other.judge(&self.truth).is_right()
            || self.role == other.role
                && (same_notes(&self.truth, &other.truth)
                    || sounds_alike(&self.truth, &other.truth))
    }

    fn judge_reading(&self, answer: &Numeral) -> Tier {
        let truth = &self.truth;
        if self.is_truth(answer) {
            return Tier::Right;
        }
        let bears_a_name = self.names.iter().any(|name| bears_name(answer, name));
        if bears_a_name || self.respells(answer) {
            return Tier::OtherName;
        }
        if same_notes(answer, truth) {
            return Tier::WrongContext;
        }
        let (own, other) = (Shape::acting(truth), Shape::acting(answer));
        let answer_role = role(answer, &self.context);
        let astray = answer_role.target() != self.role.target();
        if self.role.target().is_some() && is_applied(answer) && astray && kin(own.kind, other.kind)
        {
            return Tier::WrongTarget;
        }
        if own.root == other.root {
            return Tier::WrongQuality;
        }
        if answer_role.area() == self.role.area() {
            Tier::AreaOnly
        } else {
            Tier::Wrong
        }
    }

    /// Whether the answer is the chord itself, extensions, inversion and applied writing
    /// aside.
    fn is_truth(&self, answer: &Numeral) -> bool {
        let seventh = |numeral: &Numeral| numeral.quality().seventh.is_some();
        let mere_triad = self.role == Role::Chromatic && !seventh(&self.truth);
        same_function(answer, &self.truth)
            && self.has_the_bass_that_matters(answer)
            && !(mere_triad && seventh(answer))
    }

    /// The same chord on the same key of the piano, its root spelled otherwise. Of a
    /// diminished seventh the spelling is the function.
    fn respells(&self, answer: &Numeral) -> bool {
        Shape::acting(answer).root != Shape::acting(&self.truth).root
            && Shape::acting(answer).kind != Kind::Diminished
            && sounds_alike(answer, &self.truth)
    }

    /// The bass alone makes ii7/5 a suspended dominant, and the tonic a cadential
    /// six-four.
    fn has_the_bass_that_matters(&self, answer: &Numeral) -> bool {
        let six_four = Role::CadentialSixFour;
        let says_six_four = role(answer, &self.context) == six_four;
        match self.role {
            Role::SuspendedDominant => {
                self.truth.bass.is_none() || answer.sounding_bass() == self.truth.sounding_bass()
            }
            own => (own == six_four) == says_six_four,
        }
    }
}

/// The triad or seventh chord in its barest form: no added sixth, no seventh but a
/// dominant's or a diminished chord's.
#[must_use]
pub fn plain_name(numeral: &Numeral) -> Numeral {
    use crate::theory::Head;
    let Head::Roman { root, quality } = numeral.head else {
        return numeral.without_bass();
    };
    let plain = match Kind::of(quality) {
        Kind::Major => names::plain_major(numeral),
        Kind::Minor => Quality::MINOR,
        Kind::Dominant
        | Kind::HalfDiminished
        | Kind::Diminished
        | Kind::Augmented
        | Kind::Suspended => quality.plain(),
    };
    let third_is_held_back = matches!(quality.third, Third::Fourth | Third::Second);
    Numeral {
        head: Head::Roman {
            root,
            quality: if third_is_held_back { quality } else { plain },
        },
        bass: None,
        ..numeral.clone()
    }
}

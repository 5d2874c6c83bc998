//! Which answers are the same, and how near a wrong one comes.
//!
//! Answers are compared by function. Where the same notes have several names, the
//! resolution and the bass decide which of them are right.

mod aim;
mod compare;
mod names;
mod same_notes;
#[cfg(test)]
mod tests;
mod tier;

pub use names::{current_name, usual_name};
pub use tier::Tier;

use super::analysis::{Context, role};
use super::role::{Role, degree_numeral, triad_numeral};
use crate::devices::{Kind, Shape};
use crate::theory::{Line, Mode, Notation, Numeral, Quality, Third};
use aim::{has_right_target, is_apt, misses, named_target};
use compare::{
    bears_name, is_applied, kin, readings, same_function, same_notes, sounds_alike, spells_out,
    suspends_five,
};
use names::{customary, is_minor_target, spellings, usual_in};
use same_notes::other_names;

/// A chord of a line in its context, ready to judge answers.
#[derive(Clone, Debug, PartialEq)]
pub struct ChordInContext {
    /// The chord as the line has it.
    pub truth: Numeral,
    /// What it does there.
    pub role: Role,
    /// The mode of the home key.
    pub mode: Mode,
    context: Context,
    names: Vec<Numeral>,
}

impl ChordInContext {
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

    /// The chord that follows.
    #[must_use]
    pub fn next(&self) -> &Numeral {
        &self.context.next
    }

    /// What the chord does, in words, its target as the chord that follows if it stands
    /// there.
    #[must_use]
    pub fn function(&self, notation: Notation) -> String {
        self.role.words_naming(|target| {
            triad_numeral(target, is_minor_target(target, &self.context), notation)
        })
    }

    /// What a chord of this name would do in the same place.
    #[must_use]
    pub fn role_of(&self, answer: &Numeral) -> Role {
        role(answer, &self.context)
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
        for name in customary(&plain, &self.context) {
            add(name);
        }
        accepted
    }

    /// What counts as right, as it is written: the numerals, and the signs of textbooks
    /// that stand for a chord only in its place.
    #[must_use]
    pub fn accepted_written(&self, notation: Notation) -> Vec<String> {
        let accepted = self.accepted();
        let written = accepted.iter().map(|name| name.written(notation));
        written.chain(self.sign(notation)).collect()
    }

    /// The sign that a textbook has for the chord, if it has one that is no numeral.
    #[must_use]
    pub fn sign(&self, notation: Notation) -> Option<String> {
        match self.role {
            Role::CadentialSixFour => Some("V6/4".to_owned()),
            Role::CommonToneDiminished => Some(format!("CT{}7", notation.diminished())),
            Role::CommonToneAugmentedSixth => Some("CT+6".to_owned()),
            _ => None,
        }
    }

    /// How near an answer comes. In minor an answer may leave the flats of ♭III, ♭VI and
    /// ♭VII out; it is then read in the way that does it most good.
    ///
    /// # Examples
    /// ```
    /// use plagal::harmony::{ChordInContext, Tier};
    /// use plagal::theory::{BareSix, Line, Meter, Mode};
    ///
    /// let line = Line::read("I | V7/ii | ii7 | V7", Meter::FourFour, BareSix::AddedSixth)?;
    /// let asked = ChordInContext::of(&line, 1, Mode::Major);
    /// assert_eq!(asked.judge(&"V/ii".parse()?), Tier::Right);
    /// assert_eq!(asked.judge(&"vii°7/ii".parse()?), Tier::OtherForm);
    /// assert_eq!(asked.judge(&"V7/V".parse()?), Tier::WrongTarget);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn judge(&self, answer: &Numeral) -> Tier {
        readings(answer, self.mode)
            .iter()
            .map(|reading| self.judge_reading(reading))
            .min()
            .expect("an answer has at least the reading that is written")
    }

    /// The target that an answer names although the chord, which it names rightly, does not
    /// lead there.
    #[must_use]
    pub fn misnamed_target(&self, answer: &Numeral, notation: Notation) -> Option<String> {
        let is_it = |reading: &Numeral| self.recognises(reading).is_some();
        if self.judge(answer).is_right() || !readings(answer, self.mode).iter().any(is_it) {
            return None;
        }
        named_target(answer).map(|named| match &answer.target {
            Some(target) if target.root() == named => target.written(notation),
            Some(_) | None => degree_numeral(named, self.mode, notation),
        })
    }

    /// Whether a chord in the same place does what this one does, so that no ear could
    /// prefer one name to the other: it is right for it or it for that one, or both are
    /// named for the same role by the same notes.
    #[must_use]
    pub fn is_as_good(&self, other: &Self) -> bool {
        self.recognises(&other.truth).is_some()
            || other.recognises(&self.truth).is_some()
            || self.judge(&other.truth).is_right()
            || other.judge(&self.truth).is_right()
            || self.role == other.role
                && (same_notes(&self.truth, &other.truth)
                    || sounds_alike(&self.truth, &other.truth))
    }

    fn judge_reading(&self, answer: &Numeral) -> Tier {
        let truth = &self.truth;
        if let Some(tier) = self.recognises(answer) {
            return match (is_apt(answer, self.role, &self.context), self.role) {
                (true, _) => tier,
                (false, Role::BluesSeventh) => Tier::WrongContext,
                (false, _) => Tier::WrongTarget,
            };
        }
        if same_notes(answer, truth) {
            return Tier::WrongContext;
        }
        let (own, other) = (Shape::acting(truth), Shape::acting(answer));
        if own.root != other.root && has_right_target(answer, self.role, &self.context) {
            return Tier::OtherForm;
        }
        let answer_role = role(answer, &self.context);
        let target = self.role.target();
        let astray = target.is_some_and(|target| misses(answer, target, &self.context));
        if astray && is_applied(answer) && kin(own.kind, other.kind) {
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

    /// How an answer names this very chord, if it does, wherever it says that the chord
    /// leads.
    fn recognises(&self, answer: &Numeral) -> Option<Tier> {
        if self.is_truth(answer) {
            let as_it_is = named_target(answer).is_none()
                || role(answer, &self.context).target() == self.role.target();
            return Some(if as_it_is {
                Tier::Right
            } else {
                Tier::OtherName
            });
        }
        let bears_a_name = self.names.iter().any(|name| bears_name(answer, name));
        (bears_a_name || self.respells(answer) || spells_out(answer, &self.truth))
            .then_some(Tier::OtherName)
    }

    /// Whether the answer is the chord itself, extensions, inversion and applied writing
    /// aside.
    fn is_truth(&self, answer: &Numeral) -> bool {
        let seventh = |numeral: &Numeral| numeral.quality().seventh.is_some();
        let mere_triad = self.role == Role::Chromatic && !seventh(&self.truth);
        if self.role == Role::SuspendedDominant && suspends_five(answer) {
            return self.has_the_bass_that_matters(answer);
        }
        same_function(answer, &self.truth)
            && self.has_the_bass_that_matters(answer)
            && !(mere_triad && seventh(answer))
    }

    /// The same chord on the same key of the piano, its root spelled otherwise. Of a
    /// diminished seventh only the bare name is: charts write it as it reads easiest (common
    /// practice), and what it does is told by where it goes.
    fn respells(&self, answer: &Numeral) -> bool {
        let named = Shape::acting(answer);
        named.root != Shape::acting(&self.truth).root
            && (named.kind != Kind::Diminished || named_target(answer).is_none())
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

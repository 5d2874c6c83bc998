//! Which key is home? One of the keys on offer.

use super::fairness::{Blind, Unfair, twins};
use super::form::{AnswerManner, Form, Mark, Misread, offered};
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::{Progression, Role, roles};
use crate::quiz::material::Material;
use crate::theory::{BareSix, Chord, Key, Notation, OCTAVE};

/// The home key among keys on offer.
#[derive(Clone, Debug, PartialEq)]
pub struct KeyAsk {
    truth: Key,
    choices: Vec<Key>,
    given: Option<usize>,
    device: DeviceId,
}

impl KeyAsk {
    pub(in crate::quiz) fn new(truth: Key, choices: Vec<Key>, device: DeviceId) -> Self {
        Self {
            truth,
            choices,
            given: None,
            device,
        }
    }
}

impl Form for KeyAsk {
    fn devices(&self) -> &[DeviceId] {
        std::slice::from_ref(&self.device)
    }

    fn manner(&self) -> AnswerManner {
        AnswerManner::Offered
    }

    fn instruction(&self) -> &'static str {
        "Answer with a key or its number."
    }

    fn labels(&self, notation: Notation) -> Vec<String> {
        let keys = self.choices.iter();
        keys.map(|key| key.written(notation)).collect()
    }

    fn truth(&self, notation: Notation) -> String {
        self.truth.written(notation)
    }

    fn given(&self, notation: Notation) -> Option<String> {
        Some(self.choices[self.given?].written(notation))
    }

    fn choose(&mut self, choice: usize) -> bool {
        let exists = choice < self.choices.len();
        if exists {
            self.given = Some(choice);
        }
        exists
    }

    fn read(&mut self, text: &str, _six: BareSix) -> Result<(), Misread> {
        self.given = Some(offered(self, text)?);
        Ok(())
    }

    fn asks_key(&self) -> bool {
        true
    }

    fn mark(&self, _material: Material<'_>, _catalogue: &Catalogue) -> Option<Mark> {
        Some(Mark::right_if(self.choices[self.given?] == self.truth))
    }

    fn diagnosis(&self, _mark: &Mark, material: Material<'_>, notation: Notation) -> Vec<String> {
        let mut said = vec![format!("Home is {}.", self.truth(notation))];
        said.extend(self.opening(material, notation));
        if self.cue(material).is_none() {
            said.extend(where_home_comes(material.progression));
        }
        said
    }

    /// What a line's last chord does is no help in finding its home; what its first one
    /// does is.
    fn cue(&self, material: Material<'_>) -> Option<&DeviceId> {
        let found = material.progression.occurrence(&self.device)?;
        (found.own.start == 0).then_some(&self.device)
    }

    fn unfair(&self, material: Material<'_>, _blind: &dyn Blind) -> Vec<(Unfair, String)> {
        let tonics = self.choices.iter().map(|key| key.tonic().chromatic());
        let tonics: Vec<String> = tonics.map(|tonic| tonic.to_string()).collect();
        let mut found = twins(&tonics);
        if !self.choices.contains(&self.truth) {
            found.push((Unfair::NoRightAnswer, self.truth.to_string()));
        }
        if self.truth != material.progression.key {
            found.push((Unfair::Untrue, self.truth.to_string()));
        }
        found
    }

    fn remembered(&self, material: Material<'_>) -> Option<(Vec<String>, usize)> {
        let root = opening_root(material.progression)?;
        let away = |key: &Key| {
            let steps = (key.tonic().chromatic() - root).rem_euclid(OCTAVE);
            format!("{steps} semitones away")
        };
        let right = self.choices.iter().position(|key| *key == self.truth)?;
        Some((self.choices.iter().map(away).collect(), right))
    }

    fn class(&self, material: Material<'_>) -> Option<usize> {
        let root = opening_root(material.progression)?;
        let steps = (self.truth.tonic().chromatic() - root).rem_euclid(OCTAVE);
        usize::try_from(steps).ok()
    }
}

impl KeyAsk {
    /// What the line opens on, and whether that was taken for home.
    fn opening(&self, material: Material<'_>, notation: Notation) -> Option<String> {
        let first = material.progression.line.numerals().next()?;
        let opening = format!("The line opens on its {}", first.written(notation));
        let named = self.given.map(|given| self.choices[given]);
        Some(match named.filter(|named| *named != self.truth) {
            Some(named)
                if opening_root(material.progression) == Some(named.tonic().chromatic()) =>
            {
                format!("{opening}, which you took for home.")
            }
            Some(named) => format!("{opening}. You named {}.", named.written(notation)),
            None => format!("{opening}."),
        })
    }
}

/// The root of the first chord in semitones, as its spelling gives it.
fn opening_root(progression: &Progression) -> Option<i32> {
    let first = progression.line.numerals().next()?;
    let chord = Chord::new(first, progression.key).ok()?;
    Some(chord.root().chromatic())
}

/// Where in the line home comes, and after what.
fn where_home_comes(progression: &Progression) -> Option<String> {
    let line = &progression.line;
    let roles = roles(line, progression.key.mode());
    let is_home = |role: &Role| matches!(role, Role::Tonic);
    if roles.first().is_some_and(is_home) {
        let back = (1..roles.len()).find(|at| is_home(&roles[*at]) && is_dominant(roles[at - 1]));
        let again = back.map_or_else(String::new, |at| {
            format!(
                ", and its dominant leads back to it in bar {}",
                line.bar(at)
            )
        });
        return Some(format!("Home is there from the first chord{again}."));
    }
    let home = roles.iter().position(is_home)?;
    let bar = line.bar(home);
    Some(match roles[home - 1] {
        before if is_dominant(before) => format!("Home comes in bar {bar}, after its dominant."),
        Role::Subdominant | Role::MinorSubdominant => {
            format!("Home comes in bar {bar}, after its subdominant.")
        }
        _ => format!("Home comes in bar {bar}."),
    })
}

/// Whether a chord before home is its dominant.
fn is_dominant(role: Role) -> bool {
    matches!(
        role,
        Role::Dominant | Role::SuspendedDominant | Role::LeadingTone
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theory::{Line, Meter};

    #[test]
    fn home_is_found_where_the_line_comes_to_rest() {
        let catalogue = Catalogue::built_in();
        for (text, said) in [
            (
                "V7/V | ii7 | V7 Imaj7 | V7/V",
                "Home comes in bar 3, after its dominant.",
            ),
            (
                "IV | iv | I | V7/IV",
                "Home comes in bar 3, after its subdominant.",
            ),
            ("IV | bVII7 | I | V7/IV", "Home comes in bar 3."),
            (
                "I | IV V7 | I | V7",
                "Home is there from the first chord, and its dominant leads back to it in bar 3.",
            ),
        ] {
            let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
            let progression = Progression::new("C".parse().expect("a key"), line, &catalogue);
            assert_eq!(
                where_home_comes(&progression).as_deref(),
                Some(said),
                "{text}"
            );
        }
    }
}

//! Offers that are called alike: how a name is made must not tell which one is right.

use crate::theory::{Mode, Numeral};

/// A seventh chord's name by its own root, and by what it is the dominant of (common
/// practice; the two names are accepted for each other everywhere).
const MAJOR: [(&str, &str); 5] = [
    ("I7", "V7/IV"),
    ("II7", "V7/V"),
    ("III7", "V7/vi"),
    ("VI7", "V7/ii"),
    ("VII7", "V7/iii"),
];
const MINOR: [(&str, &str); 4] = [
    ("I7", "V7/iv"),
    ("II7", "V7/V"),
    ("bIII7", "V7/bVI"),
    ("bVII7", "V7/bIII"),
];

/// How the dominants among the offers are called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Manner {
    ByRoot,
    ByTarget,
}

/// Gives wrong answers the kind of name that the right one has.
#[derive(Clone, Debug)]
pub(super) struct Alike {
    manner: Manner,
    names: Vec<(Numeral, Numeral)>,
}

impl Alike {
    /// By targets, unless the right answer is itself a dominant that goes elsewhere and is
    /// called by its root.
    pub(super) fn to(right: &Numeral, mode: Mode) -> Self {
        let table: &[(&str, &str)] = match mode {
            Mode::Major => &MAJOR,
            Mode::Minor => &MINOR,
        };
        let numeral = |text: &str| text.parse().expect("the table holds numerals");
        let names: Vec<(Numeral, Numeral)> = table
            .iter()
            .map(|(root, target)| (numeral(root), numeral(target)))
            .collect();
        let manner = if names.iter().any(|(root, _)| root == right) {
            Manner::ByRoot
        } else {
            Manner::ByTarget
        };
        Self { manner, names }
    }

    pub(super) fn name(&self, numeral: Numeral) -> Numeral {
        let found = self
            .names
            .iter()
            .find(|(root, target)| *root == numeral || *target == numeral);
        match (found, self.manner) {
            (None, _) => numeral,
            (Some((root, _)), Manner::ByRoot) => root.clone(),
            (Some((_, target)), Manner::ByTarget) => target.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Alike;
    use crate::theory::{Mode, Numeral};

    #[test]
    fn wrong_answers_take_the_manner_of_the_right_one() {
        let cases = [
            (Mode::Major, "V7/vi", "II7", "V7/V"),
            (Mode::Major, "iv", "VI7", "V7/ii"),
            (Mode::Major, "I7", "V7/ii", "VI7"),
            (Mode::Major, "V7/vi", "bVII7", "bVII7"),
            (Mode::Minor, "iv", "bVII7", "V7/bIII"),
            (Mode::Minor, "bIII7", "V7/iv", "I7"),
        ];
        for (mode, right, offered, named) in cases {
            let read = |text: &str| -> Numeral { text.parse().expect("a numeral") };
            let name = Alike::to(&read(right), mode).name(read(offered));
            assert_eq!(name, read(named), "{offered} beside {right}");
        }
    }
}

//! Offers that are called alike: how a name is made must not tell which one is right.

use crate::theory::{Mode, Numeral};

/// A seventh chord's name by its own root, and by what it is the dominant of (common
/// practice; the two names are accepted for each other everywhere); behind them a target of
/// the other mode, which is hardly ever meant and would stand out.
const MAJOR: [&[&str]; 5] = [
    &["I7", "V7/IV", "V7/iv"],
    &["II7", "V7/V"],
    &["III7", "V7/vi"],
    &["VI7", "V7/ii"],
    &["VII7", "V7/iii"],
];
const MINOR: [&[&str]; 4] = [
    &["I7", "V7/iv", "V7/IV"],
    &["II7", "V7/V"],
    &["bIII7", "V7/bVI"],
    &["bVII7", "V7/bIII"],
];

/// How the dominants among the offers are called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum NamingStyle {
    ByRoot,
    ByTarget,
}

/// The names of each dominant: by its root, by its target, and others.
fn table(mode: Mode) -> Vec<Vec<Numeral>> {
    let table: &[&[&str]] = match mode {
        Mode::Major => &MAJOR,
        Mode::Minor => &MINOR,
    };
    let numeral = |text: &&str| text.parse().expect("the table holds numerals");
    table
        .iter()
        .map(|names| names.iter().map(numeral).collect())
        .collect()
}

/// Gives all answers on offer the same kind of name.
#[derive(Clone, Debug)]
pub(super) struct DistractorNaming {
    manner: NamingStyle,
    names: Vec<Vec<Numeral>>,
}

impl DistractorNaming {
    /// As most dominants of a drill are called, each with how often it is asked: after their
    /// roots where more of them rest or go astray, and elsewhere by what they do, which is
    /// what is asked. Either name is right for either.
    pub(super) fn in_drill(names: &[(Numeral, f64)], mode: Mode) -> Self {
        let table = table(mode);
        let weight = |at: usize| -> f64 {
            let is_one = |name: &Numeral| table.iter().any(|names| names[at] == *name);
            let found = names.iter().filter(|(name, _)| is_one(name));
            found.map(|(_, weight)| weight).sum()
        };
        let (by_root, by_target) = (weight(0), weight(1));
        let manner = if by_root > by_target {
            NamingStyle::ByRoot
        } else {
            NamingStyle::ByTarget
        };
        Self {
            manner,
            names: table,
        }
    }

    /// The same, but as the right answer is made where it is a dominant that goes astray
    /// for once.
    pub(super) fn to(&self, right: &Numeral) -> Self {
        let astray = self.names.iter().any(|names| names[0] == *right);
        Self {
            manner: if astray {
                NamingStyle::ByRoot
            } else {
                self.manner
            },
            names: self.names.clone(),
        }
    }

    pub(super) fn name(&self, numeral: Numeral) -> Numeral {
        let found = self.names.iter().find(|names| names.contains(&numeral));
        match (found, self.manner) {
            (None, _) => numeral,
            (Some(names), NamingStyle::ByRoot) => names[0].clone(),
            (Some(names), NamingStyle::ByTarget) => names[1].clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::DistractorNaming;
    use crate::theory::{Mode, Numeral};

    #[test]
    fn wrong_answers_take_the_manner_of_the_drill_and_of_the_right_one() {
        let read = |text: &str| -> Numeral { text.parse().expect("a numeral") };
        let drill = |mode, names: &[&str]| {
            let names: Vec<(Numeral, f64)> = names.iter().map(|name| (read(name), 1.0)).collect();
            DistractorNaming::in_drill(&names, mode)
        };
        let cases = [
            (Mode::Major, "V7/vi", "II7", "V7/V"),
            (Mode::Major, "iv", "VI7", "V7/ii"),
            (Mode::Major, "I7", "V7/ii", "VI7"),
            (Mode::Major, "V7/vi", "bVII7", "bVII7"),
            (Mode::Minor, "iv", "bVII7", "V7/bIII"),
            (Mode::Minor, "bIII7", "V7/iv", "I7"),
            (Mode::Major, "iv", "V7/iv", "V7/IV"),
            (Mode::Minor, "iv", "V7/IV", "V7/iv"),
        ];
        for (mode, right, offered, named) in cases {
            let name = drill(mode, &["iv", "V7/ii"])
                .to(&read(right))
                .name(read(offered));
            assert_eq!(name, read(named), "{offered} beside {right}");
        }
        let blues = drill(Mode::Major, &["I7", "IV7", "I7", "V7/ii"]);
        let name = blues.to(&read("V7/ii")).name(read("V7/ii"));
        assert_eq!(name, read("VI7"));
    }
}

//! Twelve bars of blues: three lines of four, each drawn from what is common practice there.
//!
//! The plain form (four bars of I7, two of IV7 and two of I7, then V7, IV7, I7) is that of
//! Music Theory for the 21st-Century Classroom, 12.4, and Open Music Theory v1, The blues
//! progression; the quick change to IV7, the ii-V of the jazz blues, ♭VI7-V7 of the minor
//! one and the turnarounds are common practice.

use std::sync::OnceLock;

use rand::Rng;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use super::bridge::draw;
use crate::harmony::analysis::Context;
use crate::harmony::equivalence::usual_name;
use crate::theory::{BareSix, Key, Line, Meter, Mode, Numeral, PitchClass};

/// The device whose drills move their lines of twelve bars into the blues.
pub(super) const DEVICE: &str = "blues-sevenths";

/// The bars of the form.
pub(super) const BARS: u32 = 12;

type Ways = &'static [(&'static str, f64)];

/// What may stand in each part of the form.
struct Parts {
    /// Bars 1 to 4.
    first: Ways,
    /// Bars 5 to 8.
    second: Ways,
    /// Bars 9 and 10 after a bar of the tonic.
    third: Ways,
    /// Bars 9 and 10 after a dominant of ii.
    third_from_two: Ways,
    /// Bars 9 and 10 after a dominant of V.
    third_from_five: Ways,
    /// Bars 11 and 12.
    last: Ways,
}

/// How the eighth bar ends where it leads to ii.
const TO_TWO: &str = "V7/ii";
/// How it ends where it leads to V.
const TO_FIVE: &str = "V7/V";

/// Where a chorus in major is asked: what it begins with there does not tell the device,
/// because each of the jazz blues has a chord in these places.
pub(super) const PLACES: [Place; 2] = [
    Place {
        bar: 8,
        second_half: false,
        chords_after: None,
    },
    Place {
        bar: 11,
        second_half: true,
        chords_after: Some(2),
    },
];

/// The place of a chord in the form.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    /// From 1.
    bar: u32,
    /// The second of two chords in the bar; else the only one.
    second_half: bool,
    /// How many chords follow it, if that matters.
    chords_after: Option<usize>,
}

impl Place {
    /// The slot that stands in this place.
    pub(super) fn slot(self, line: &Line) -> Option<usize> {
        let bar = line.meter().bar();
        let (from, to) = ((self.bar - 1) * bar, self.bar * bar);
        let mut start = 0;
        let starts: Vec<u32> = line
            .slots()
            .iter()
            .map(|slot| {
                let own = start;
                start += slot.length;
                own
            })
            .collect();
        let slot = (0..starts.len()).find(|at| {
            let end = starts[*at] + line.slots()[*at].length;
            if self.second_half {
                starts[*at] > from && starts[*at] < to
            } else {
                starts[*at] == from && end >= to
            }
        })?;
        let after = starts.len() - 1 - slot;
        let fits = self.chords_after.is_none_or(|wanted| wanted == after);
        fits.then_some(slot)
    }
}

const MAJOR: Parts = Parts {
    first: &[
        ("I7 | % | % | %", 2.0),
        ("I7 | IV7 | I7 | %", 3.0),
        ("I7 | IV7 | I7 | v7 I7", 2.0),
        ("I7 | IV7 #ivo7 | I7/5 | v7 I7", 0.7),
        ("I7 | IV7 | I7 V7 | I7", 0.6),
        ("I7 IV7 | I7 | % | v7 I7", 0.6),
        ("I7 V7/ii | ii7 V7 | I7 | v7 I7", 0.6),
    ],
    second: &[
        ("IV7 | % | I7 | %", 2.0),
        ("IV7 | #ivo7 | I7/5 | V7/ii", 1.5),
        ("IV7 | % | I7 | V7/ii", 0.6),
        ("IV7 | #ivo7 | I7/5 | iii7 V7/ii", 0.8),
        ("IV7 | #ivo7 | I7/5 | iiiø7 V7/ii", 0.5),
        ("IV7 | % | I7 | iii7 V7/ii", 0.8),
        ("IV7 | iv7 | I7 | iii7 V7/ii", 0.5),
        ("IV7 | iv7 | I7 | V7/ii", 0.6),
        ("IV7 | #ivo7 | I7/5 | %", 0.8),
        ("IV7 | #ivo7 | iii7 | V7/ii", 1.5),
        ("IV7 | #ivo7 | iiiø7 | V7/ii", 0.6),
        ("IV7 | % | iii7 | V7/ii", 0.6),
        ("IV7 | #ivo7 | I7/5 | V7/V", 1.0),
        ("IV7 | iv7 | I7 | V7/V", 0.5),
        ("IV7 | % | I7 | V7/V", 0.5),
        ("IV7 | % | I7 IV7 | I7", 1.5),
        ("IV7 | iv7 | I7 IV7 | I7", 0.5),
    ],
    third: &[("V7 | IV7", 2.5), ("ii7 | V7", 1.5), ("V7/V | V7", 0.7)],
    third_from_two: &[("ii7 | V7", 3.0), ("V7/V | V7", 1.0), ("ii7 | subV7", 0.5)],
    third_from_five: &[("V7 | IV7", 1.0)],
    last: &[
        ("I7 | %", 1.0),
        ("I7 | V7", 1.5),
        ("I7 IV7 | I7", 1.0),
        ("I7 IV7 | I7 V7", 1.5),
        ("I7 V7/ii | ii7 V7", 1.5),
        ("I7 #io7 | ii7 V7", 0.7),
        ("I7 V7/ii | V7/V V7", 0.7),
        ("iii7 V7/ii | ii7 V7", 0.7),
        ("iiiø7 V7/ii | ii7 V7", 0.4),
        ("iii7 V7/ii | V7/V V7", 0.4),
        ("I7 V7/V | V7 I7", 0.6),
    ],
};

const MINOR: Parts = Parts {
    first: &[
        ("i7 | % | % | %", 2.0),
        ("i7 | iv7 | i7 | %", 3.0),
        ("i7 | iiø7 V7 | i7 | %", 1.0),
        ("i7 | iv7 | i7 | V7/iv", 1.5),
        ("i7 | iiø7 V7 | i7 | V7/iv", 1.0),
        ("i7 | % | % | V7/iv", 1.0),
    ],
    second: &[
        ("iv7 | % | i7 | %", 4.0),
        ("iv7 | V7 | i7 | %", 0.7),
        ("iv7 | bVII7 | i7 | %", 0.6),
        ("iv7 | % | i7 | bVI7 V7", 0.7),
        ("iv7 | % | i7 V7 | i7", 0.7),
    ],
    third: &[
        ("bVI7 | V7", 3.0),
        ("iiø7 | V7", 2.5),
        ("V7 | iv7", 1.0),
        ("V7 | %", 0.7),
    ],
    third_from_two: &[],
    third_from_five: &[],
    last: &[
        ("i7 | %", 1.0),
        ("i7 | V7", 1.5),
        ("i7 bVI | iiø7 V7", 1.0),
        ("i7 bIII | bVI7 V7", 0.7),
        ("i7 iv7 | i7", 0.8),
        ("i7 iv7 | i7 V7", 1.0),
        ("i7 | iiø7 V7", 1.5),
        ("i7 bVI7 | V7", 0.8),
        ("i7 iv7 | bVI7 V7", 0.7),
    ],
};

/// Draws a chorus.
pub(super) fn line(mode: Mode, meter: Meter, random: &mut impl Rng) -> Line {
    let parts = match mode {
        Mode::Major => &MAJOR,
        Mode::Minor => &MINOR,
    };
    let first = one_of(parts.first, random);
    let second = one_of(parts.second, random);
    let third = if second.ends_with(TO_TWO) {
        parts.third_from_two
    } else if second.ends_with(TO_FIVE) {
        parts.third_from_five
    } else {
        parts.third
    };
    let text = [
        first,
        second,
        one_of(third, random),
        one_of(parts.last, random),
    ]
    .join(" | ");
    Line::read(&text, meter, BareSix::AddedSixth).expect("the parts are lines")
}

fn one_of(ways: Ways, random: &mut impl Rng) -> &'static str {
    let weights: Vec<f64> = ways.iter().map(|(_, weight)| *weight).collect();
    let drawn = draw(&weights, random).expect("a part has ways");
    ways[drawn].0
}

/// The names of what leaves the key in a chorus, each with how often it is there. What
/// comes twice or oftener in a chorus counts twice.
pub(super) fn names(mode: Mode) -> &'static [(Numeral, f64)] {
    static MAJOR_KEYS: OnceLock<Vec<(Numeral, f64)>> = OnceLock::new();
    static MINOR_KEYS: OnceLock<Vec<(Numeral, f64)>> = OnceLock::new();
    match mode {
        Mode::Major => MAJOR_KEYS.get_or_init(|| counted(mode)),
        Mode::Minor => MINOR_KEYS.get_or_init(|| counted(mode)),
    }
}

/// Choruses in which names are counted.
const COUNTED: usize = 200;

fn counted(mode: Mode) -> Vec<(Numeral, f64)> {
    let key = Key::new(PitchClass::C, mode).expect("C has few accidentals");
    let mut random = ChaCha8Rng::seed_from_u64(0);
    let mut all: Vec<(Numeral, f64)> = Vec::new();
    for _ in 0..COUNTED {
        let line = line(mode, Meter::FourFour, &mut random);
        let mut own: Vec<(Numeral, f64)> = Vec::new();
        for (slot, chord) in line.slots().iter().enumerate() {
            let degrees = chord.numeral.degrees();
            if degrees.into_iter().any(|degree| !key.holds(degree)) {
                let context = Context::in_line(&line, slot, mode);
                add(&mut own, usual_name(&chord.numeral, &context), 1.0);
            }
        }
        for (name, times) in own {
            add(&mut all, name, times.min(2.0));
        }
    }
    all
}

fn add(names: &mut Vec<(Numeral, f64)>, name: Numeral, times: f64) {
    match names.iter_mut().find(|(known, _)| *known == name) {
        Some((_, known)) => *known += times,
        None => names.push((name, times)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theory::{Degree, Slot};

    /// The root that sounds when a bar begins.
    fn root_at(line: &Line, bar: u32) -> Degree {
        let now = (bar - 1) * line.meter().bar();
        let mut end = 0;
        let sounding = |slot: &&Slot| {
            end += slot.length;
            end > now
        };
        let slot = line.slots().iter().find(sounding);
        slot.expect("the bar is in the line").numeral.root()
    }

    #[test]
    fn every_chorus_has_the_pillars_of_the_form() {
        // Open Music Theory v1, The blues progression: a tonic phrase, a subdominant phrase
        // that comes home after two bars, a phrase that comes home from the dominant. The
        // tonic of bars 7 and 11 may be iii, its substitute.
        let mut random = ChaCha8Rng::seed_from_u64(1);
        let (one, four) = (Degree::TONIC, Degree::new(4, 0));
        let mut choruses = std::collections::BTreeSet::new();
        for mode in [Mode::Major, Mode::Minor] {
            for meter in Meter::ALL {
                for _ in 0..300 {
                    let line = line(mode, meter, &mut random);
                    assert_eq!(line.bars(), BARS);
                    let roots = [1, 3, 5].map(|bar| root_at(&line, bar));
                    assert_eq!(roots, [one, one, four], "{line}");
                    let home = [one, Degree::new(3, 0)];
                    assert!(home.contains(&root_at(&line, 7)), "{line}");
                    assert!(home.contains(&root_at(&line, 11)), "{line}");
                    choruses.insert(line.to_string());
                }
            }
        }
        assert!(choruses.len() > 300, "only {} choruses", choruses.len());
    }
}

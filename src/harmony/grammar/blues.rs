//! Twelve bars of blues: three lines of four, each drawn from what is common practice there.
//!
//! The plain form (four bars of I7, two of IV7 and two of I7, then V7, IV7, I7) is that of
//! Music Theory for the 21st-Century Classroom, 12.4, and Open Music Theory v1, The blues
//! progression; the quick change to IV7, the ii-V of the jazz blues, ♭VI7-V7 of the minor
//! one and the turnarounds are common practice.

use rand::Rng;

use super::bridge::draw;
use crate::theory::{BareSix, Line, Meter, Mode};

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
    /// Bars 11 and 12.
    last: Ways,
}

/// How the eighth bar ends where it leads to ii.
const TO_TWO: &str = "V7/ii";

const MAJOR: Parts = Parts {
    first: &[
        ("I7 | % | % | %", 2.0),
        ("I7 | IV7 | I7 | %", 3.0),
        ("I7 | IV7 | I7 | v7 I7", 2.0),
        ("I7 | IV7 #ivo7 | I7/5 | v7 I7", 0.7),
        ("I7 | IV7 | I7 V7 | I7", 0.6),
    ],
    second: &[
        ("IV7 | % | I7 | %", 3.0),
        ("IV7 | #ivo7 | I7/5 | V7/ii", 1.5),
        ("IV7 | % | I7 | V7/ii", 1.5),
        ("IV7 | #ivo7 | I7 | iii7 V7/ii", 0.8),
        ("IV7 | #ivo7 | I7/5 | iiiø7 V7/ii", 0.5),
        ("IV7 | % | I7 | iii7 V7/ii", 0.8),
        ("IV7 | iv7 | I7 | iii7 V7/ii", 0.5),
        ("IV7 | iv7 | I7 | V7/ii", 0.6),
        ("IV7 | #ivo7 | I7/5 | %", 0.8),
    ],
    third: &[
        ("V7 | IV7", 2.5),
        ("V7 | %", 1.0),
        ("ii7 | V7", 1.5),
        ("V7/V | V7", 0.7),
    ],
    third_from_two: &[("ii7 | V7", 3.0), ("V7/V | V7", 1.0), ("ii7 | subV7", 0.5)],
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

#[cfg(test)]
mod tests {
    use rand::SeedableRng;
    use rand_chacha::ChaCha8Rng;

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
        // tonic of bar 11 may be iii, its substitute.
        let mut random = ChaCha8Rng::seed_from_u64(1);
        let (one, four) = (Degree::TONIC, Degree::new(4, 0));
        let mut choruses = std::collections::BTreeSet::new();
        for mode in [Mode::Major, Mode::Minor] {
            for meter in Meter::ALL {
                for _ in 0..300 {
                    let line = line(mode, meter, &mut random);
                    assert_eq!(line.bars(), BARS);
                    let roots = [1, 3, 5, 7].map(|bar| root_at(&line, bar));
                    assert_eq!(roots, [one, one, four, one], "{line}");
                    let home = [one, Degree::new(3, 0)];
                    assert!(home.contains(&root_at(&line, 11)), "{line}");
                    choruses.insert(line.to_string());
                }
            }
        }
        assert!(choruses.len() > 300, "only {} choruses", choruses.len());
    }
}

//! Note values: how a stretch of a bar is written.

use crate::theory::{Meter, TICKS_PER_BEAT, Ticks};

/// One written note's length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Value {
    pub(super) ticks: Ticks,
    /// The name of the note type, without dot or tuplet.
    pub(super) name: &'static str,
    pub(super) dotted: bool,
    /// So many in the time of so many.
    pub(super) tuplet: Option<(u32, u32)>,
}

/// Undotted and dotted values without tuplets, the longest first.
const PLAIN: [(Ticks, &str, bool); 9] = [
    (4 * TICKS_PER_BEAT, "whole", false),
    (3 * TICKS_PER_BEAT, "half", true),
    (2 * TICKS_PER_BEAT, "half", false),
    (3 * TICKS_PER_BEAT / 2, "quarter", true),
    (TICKS_PER_BEAT, "quarter", false),
    (3 * TICKS_PER_BEAT / 4, "eighth", true),
    (TICKS_PER_BEAT / 2, "eighth", false),
    (3 * TICKS_PER_BEAT / 8, "16th", true),
    (TICKS_PER_BEAT / 4, "16th", false),
];

/// The shortest of them.
const FINEST: Ticks = TICKS_PER_BEAT / 8;

/// How the stretches of a bar are written, each as values to be tied. A bar that does not
/// divide by halving is one tuplet.
pub(super) fn values(stretches: &[Ticks], meter: Meter) -> Vec<Vec<Value>> {
    if stretches.iter().all(|ticks| ticks.is_multiple_of(FINEST)) {
        return stretches.iter().map(|ticks| plain(*ticks)).collect();
    }
    let bar = meter.bar();
    let parts = (3..=7)
        .find(|parts| {
            let unit = bar / parts;
            bar.is_multiple_of(*parts) && stretches.iter().all(|ticks| ticks.is_multiple_of(unit))
        })
        .expect("a bar has at most eight chords of the same length");
    let (name, normal) = [
        (TICKS_PER_BEAT / 4, "16th"),
        (TICKS_PER_BEAT / 2, "eighth"),
        (TICKS_PER_BEAT, "quarter"),
        (2 * TICKS_PER_BEAT, "half"),
    ]
    .into_iter()
    .map(|(ticks, name)| (name, bar / ticks))
    .find(|(_, normal)| *normal <= parts)
    .expect("a bar has at most two halves");
    let value = Value {
        ticks: bar / parts,
        name,
        dotted: false,
        tuplet: Some((parts, normal)),
    };
    let count = |ticks: &Ticks| (ticks / value.ticks) as usize;
    stretches
        .iter()
        .map(|ticks| vec![value; count(ticks)])
        .collect()
}

fn plain(mut ticks: Ticks) -> Vec<Value> {
    let mut found = Vec::new();
    while ticks > 0 {
        let fitting = PLAIN.iter().find(|(length, ..)| *length <= ticks);
        let (length, name, dotted) = fitting.copied().unwrap_or((FINEST, "32nd", false));
        found.push(Value {
            ticks: length,
            name,
            dotted,
            tuplet: None,
        });
        ticks -= length;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(parts: u32, meter: Meter) -> String {
        let stretches = vec![meter.bar() / parts; parts as usize];
        let first = values(&stretches, meter).remove(0);
        let texts = first.iter().map(|value| {
            let dot = if value.dotted { "." } else { "" };
            let tuplet = value
                .tuplet
                .map(|(actual, normal)| format!(" {actual}:{normal}"));
            format!("{}{dot}{}", value.name, tuplet.unwrap_or_default())
        });
        texts.collect::<Vec<_>>().join("+")
    }

    #[test]
    fn equal_parts_of_a_bar_have_their_usual_values() {
        // Common practice of notation: a bar of four quarters in three is half-note triplets,
        // in five quarter quintuplets.
        for (parts, in_four, in_three) in [
            (1, "whole", "half."),
            (2, "half", "quarter."),
            (3, "half 3:2", "quarter"),
            (4, "quarter", "eighth."),
            (5, "quarter 5:4", "quarter 5:3"),
            (6, "quarter 6:4", "eighth"),
            (7, "quarter 7:4", "eighth 7:6"),
            (8, "eighth", "16th."),
        ] {
            assert_eq!(written(parts, Meter::FourFour), in_four);
            assert_eq!(written(parts, Meter::ThreeFour), in_three);
        }
    }

    #[test]
    fn values_fill_their_stretch() {
        for meter in Meter::ALL {
            for parts in 1..=8 {
                let unit = meter.bar() / parts;
                let stretches = [unit * (parts - 1), unit];
                for (values, ticks) in values(&stretches, meter).iter().zip(stretches) {
                    let sum: Ticks = values.iter().map(|value| value.ticks).sum();
                    assert_eq!(sum, ticks, "{meter} {parts}");
                }
            }
        }
    }
}

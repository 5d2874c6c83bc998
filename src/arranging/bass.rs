//! The line of the bass: which octave each bass note takes.

use std::ops::RangeInclusive;

use super::register::BASS_REACH;
use crate::theory::{OCTAVE, Pitch, PitchClass};

/// The smoothest line over the bass notes within reach, by choice in the register given.
/// Its notes are given by the chords; only the octaves are chosen. A `whim` is what a note
/// costs in one place more than in another, so that up a fourth and down a fifth, which are
/// as good, come by turns.
pub(super) fn line(
    classes: &[PitchClass],
    register: &RangeInclusive<i32>,
    mut whim: impl FnMut() -> i32,
) -> Vec<Pitch> {
    let octaves: Vec<Vec<Pitch>> = classes.iter().map(|class| places(*class)).collect();
    let Some(first) = octaves.first() else {
        return Vec::new();
    };
    let mut totals: Vec<i32> = first
        .iter()
        .map(|pitch| outside(*pitch, register) + whim())
        .collect();
    let mut choices: Vec<Vec<usize>> = Vec::new();
    for pair in octaves.windows(2) {
        let reached = pair[1].iter().map(|to| {
            let ways = pair[0].iter().zip(&totals).enumerate();
            let (choice, total) = ways
                .map(|(index, (from, total))| (index, total + leap(*from, *to)))
                .min_by_key(|(_, total)| *total)
                .expect("every note has a place in the bass");
            (choice, total + outside(*to, register) + whim())
        });
        let (choice, next): (Vec<usize>, Vec<i32>) = reached.unzip();
        choices.push(choice);
        totals = next;
    }
    let mut at = (0..totals.len())
        .min_by_key(|index| totals[*index])
        .expect("every note has a place in the bass");
    let mut line = vec![octaves[octaves.len() - 1][at]];
    for (choice, octave) in choices.iter().zip(&octaves).rev() {
        at = choice[at];
        line.push(octave[at]);
    }
    line.reverse();
    line
}

/// Where a bass note may stand: at least one place, at most two.
fn places(class: PitchClass) -> Vec<Pitch> {
    let low = Pitch::at_or_above(class, *BASS_REACH.start());
    let high = Pitch::new(class, low.octave + 1);
    let reached = high.midi() <= *BASS_REACH.end();
    std::iter::once(low)
        .chain(reached.then_some(high))
        .collect()
}

/// What it costs to lie outside the register that the bass keeps by choice: more than a
/// fifth in place of a fourth or a sixth in place of a third, less than a seventh in place
/// of a second. Did it follow the smallest interval instead, how high it lies would say
/// which degree it is.
fn outside(pitch: Pitch, register: &RangeInclusive<i32>) -> i32 {
    let above = pitch.midi() - register.end();
    let below = register.start() - pitch.midi();
    (8 * above.max(below).max(0)).min(24)
}

/// What a move costs: steps least, up to a fifth little, a seventh or more very much.
fn leap(from: Pitch, to: Pitch) -> i32 {
    let size = (to.midi() - from.midi()).abs();
    let beyond_fifth = (size - 7).max(0);
    let seventh = if (10..OCTAVE).contains(&size) { 40 } else { 0 };
    2 * size + 4 * beyond_fifth + seventh
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arranging::BASS;

    fn bass(classes: &str) -> String {
        let classes: Vec<PitchClass> = classes
            .split(' ')
            .map(|name| name.parse().expect("a note name"))
            .collect();
        let line: Vec<String> = line(&classes, &BASS, || 0)
            .iter()
            .map(Pitch::to_string)
            .collect();
        line.join(" ")
    }

    #[test]
    fn chromatic_lines_stay_in_one_octave() {
        for (classes, line) in [
            ("C C# D D# E", "C3 C#3 D3 D#3 E3"),
            ("F# E# E D# D C#", "F#3 E#3 E3 D#3 D3 C#3"),
            ("E D# D C#", "E3 D#3 D3 C#3"),
            ("Eb E F", "Eb3 E3 F3"),
            ("A G F E", "A2 G2 F2 E2"),
            ("G G# A", "G2 G#2 A2"),
        ] {
            assert_eq!(bass(classes), line);
        }
    }

    #[test]
    fn fifths_turn_back_within_the_register() {
        assert_eq!(bass("C A D G C"), "C3 A2 D3 G2 C3");
        assert_eq!(bass("E A D G"), "E2 A2 D3 G2");
    }

    #[test]
    fn a_higher_register_is_kept_where_there_is_a_choice() {
        let classes: Vec<PitchClass> = ["C", "F", "G", "C"]
            .map(|name| name.parse().expect("a note"))
            .into();
        let written = |register| {
            let line = line(&classes, &register, || 0);
            line.iter()
                .map(Pitch::to_string)
                .collect::<Vec<_>>()
                .join(" ")
        };
        assert_eq!(written(BASS), "C3 F2 G2 C3");
        assert_eq!(written(46..=56), "C3 F3 G3 C3");
    }

    #[test]
    fn no_chord_has_no_bass() {
        assert!(line(&[], &BASS, || 0).is_empty());
    }
}

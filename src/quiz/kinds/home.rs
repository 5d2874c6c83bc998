//! Which key is home? The first chord is named, no key is given, and the line often opens
//! off the tonic.

use rand_chacha::ChaCha8Rng;

use super::suited::unsuited;
use crate::quiz::ask::{Ask, KeyAsk};
use crate::quiz::drill::{Drill, KeyGiven};
use crate::quiz::no_question::NoQuestion;
use crate::quiz::prompt::Prompt;
use crate::quiz::question::Question;
use crate::quiz::weighted_sampling::drawn;
use crate::theory::{Chord, Key, Mode, OCTAVE, PitchClass};

/// Keys on offer where the exercise names no number.
const OFFERED: usize = 6;

pub(super) fn ask(
    question: &mut Question,
    drill: &Drill,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    let home = question.key();
    let first = question
        .progression
        .line
        .numerals()
        .next()
        .ok_or_else(|| unsuited(question))?;
    let first = Chord::new(first, home).map_err(NoQuestion::TooRemote)?;
    let count = if drill.answers == 0 {
        OFFERED
    } else {
        drill.answers
    };
    let mut offered = offered(home, first.root(), count, random);
    offered.sort_by_key(|key| (key.tonic().chromatic(), key.mode()));
    let device = question.wanted.clone();
    question.asks = vec![Ask::Key(KeyAsk::new(home, offered, device))];
    question.key_given = KeyGiven::Nothing;
    question.prompt = Prompt::HomeFrom(first.symbol().as_played(home));
    Ok(())
}

/// What the first chord's root may be in its key, in chromatic steps above the tonic, and
/// how often it is there where lines open off the tonic freely (counted in such lines).
const OPENINGS_MAJOR: [(i32, f64); 5] = [(2, 0.39), (9, 0.23), (5, 0.18), (0, 0.16), (4, 0.04)];
const OPENINGS_MINOR: [(i32, f64); 5] = [(0, 0.4), (2, 0.2), (5, 0.2), (8, 0.14), (7, 0.06)];

/// Home and other keys, each as early as lines with such a first root are in it; then any.
/// They hang on the first root alone: were they the neighbours of home, it would lie in
/// their middle.
fn offered(home: Key, first: PitchClass, count: usize, random: &mut ChaCha8Rng) -> Vec<Key> {
    let openings: &[(i32, f64)] = match home.mode() {
        Mode::Major => &OPENINGS_MAJOR,
        Mode::Minor => &OPENINGS_MINOR,
    };
    let sound = |key: Key| key.tonic().chromatic().rem_euclid(OCTAVE);
    let weight = |key: Key| {
        let step = (first.chromatic() - sound(key)).rem_euclid(OCTAVE);
        let known = openings.iter().find(|(degree, _)| *degree == step);
        known.map_or(SELDOM, |(_, weight)| *weight)
    };
    let others = Key::everyday()
        .filter(|key| key.mode() == home.mode() && sound(*key) != sound(home))
        .map(|key| (key, weight(key)));
    let others = drawn(others, random);
    std::iter::once(home).chain(others).take(count).collect()
}

/// The weight of a key in which no line begins with such a root.
const SELDOM: f64 = 0.003;

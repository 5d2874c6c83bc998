//! Which key is home? The first chord is named, no key is given, and the line often opens
//! off the tonic.

use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::unsuited;
use crate::quiz::answer::Form;
use crate::quiz::drill::{Drill, KeyGiven};
use crate::quiz::question::{Ask, NoQuestion, Prompt, Question, Truth};
use crate::theory::{Chord, IntervalClass, Key, Mode, PitchClass};

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
    let mut offered = vec![home];
    for mut circle in [near(home, first.root()), Key::everyday().collect()] {
        circle.shuffle(random);
        for key in circle.into_iter().filter(|key| key.mode() == home.mode()) {
            let sounds_new = offered
                .iter()
                .all(|other| other.tonic().chromatic() != key.tonic().chromatic());
            if offered.len() < count && sounds_new {
                offered.push(key);
            }
        }
    }
    offered.sort_by_key(|key| (key.tonic().chromatic(), key.mode()));
    question.asks = vec![Ask {
        slot: None,
        form: Form::Key { choices: offered },
        truth: Truth::Key(home),
        devices: vec![question.wanted.clone()],
        offered: Vec::new(),
    }];
    question.key_given = KeyGiven::Nothing;
    question.prompt = Prompt::HomeFrom(first.symbol());
    Ok(())
}

/// The keys that are taken for home: that of the first chord, and those a fifth away.
fn near(home: Key, first: PitchClass) -> Vec<Key> {
    let tonic = home.tonic();
    let relative = match home.mode() {
        Mode::Major => IntervalClass::MAJOR_SIXTH,
        Mode::Minor => IntervalClass::MINOR_THIRD,
    };
    [
        first,
        tonic.up(IntervalClass::PERFECT_FIFTH),
        tonic.up(IntervalClass::PERFECT_FOURTH),
        tonic.up(relative),
    ]
    .into_iter()
    .filter_map(|tonic| Key::new(tonic, home.mode()))
    .collect()
}

//! Which exercise is due.

use crate::devices::DeviceId;
use crate::exercise::Exercise;
use crate::scorer::{Standing, Word};

/// How far one exercise has been learned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Due {
    /// The devices that the exercise asks for.
    pub devices: usize,
    /// Devices that are secure, or were and are resting.
    pub secure: usize,
    /// Whether it is the one to do now.
    pub is_next: bool,
}

/// The state of every exercise. The one to do now is the first that has a weak device,
/// else the first with a device that is not secure yet, else the first.
#[must_use]
pub fn due(exercises: &[Exercise], standings: &[Standing]) -> Vec<Due> {
    let words = |exercise: &Exercise| -> Vec<Word> {
        let word = |id: &DeviceId| standings.iter().find(|standing| standing.device == *id);
        exercise
            .drill
            .devices
            .iter()
            .map(|id| word(id).map_or(Word::New, |s| s.word))
            .collect()
    };
    let held = |word: &Word| matches!(word, Word::Secure | Word::Resting);
    let all: Vec<Vec<Word>> = exercises.iter().map(words).collect();
    let weak = all.iter().position(|words| words.contains(&Word::Weak));
    let open = all.iter().position(|words| !words.iter().all(held));
    let next = weak.or(open).unwrap_or(0);
    all.iter()
        .enumerate()
        .map(|(index, words)| Due {
            devices: words.len(),
            secure: words.iter().filter(|word| held(word)).count(),
            is_next: index == next,
        })
        .collect()
}

//! The notes that pass between those of a chord.

use crate::theory::{Chord, Degree, Mode, OCTAVE, Pitch, PitchClass};

/// The key's scale with the chord's own notes in place of those of the same letter: over
/// `V7/ii` in C the raised C belongs to it.
pub(super) fn scale(chord: &Chord) -> Vec<PitchClass> {
    let key = chord.key();
    let lowered = |number: u8| key.mode() == Mode::Minor && matches!(number, 3 | 6 | 7);
    (1..=7)
        .map(|number| {
            let own = key.note(Degree::new(number, -i16::from(lowered(number))));
            let inflected = chord
                .notes()
                .into_iter()
                .find(|note| note.letter() == own.letter());
            inflected.unwrap_or(own)
        })
        .collect()
}

/// The spelling that `classes` have for a sound; none if they do not have it.
pub(super) fn spelled(classes: &[PitchClass], midi: i32) -> Option<Pitch> {
    classes
        .iter()
        .find(|class| class.chromatic() == midi.rem_euclid(OCTAVE))
        .map(|class| Pitch::at_or_above(*class, midi))
}

/// The scale note between two notes a third apart.
pub(in crate::arranging::texture) fn passing(
    chord: &Chord,
    from: Pitch,
    to: Pitch,
) -> Option<Pitch> {
    let (low, high) = (from.midi().min(to.midi()), from.midi().max(to.midi()));
    let scale = scale(chord);
    (3..=4)
        .contains(&(high - low))
        .then(|| (low + 1..high).find_map(|midi| spelled(&scale, midi)))
        .flatten()
}

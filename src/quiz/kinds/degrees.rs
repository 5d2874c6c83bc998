//! Which degrees does a voice go through? The bass, or the upper voice that tells: the one
//! that leaves the key by step while the others hold or follow.

use super::suited::unsuited;
use crate::arranging::{Arrangement, Passage, Voice, arrange};
use crate::quiz::ask::{Ask, DegreesAsk};
use crate::quiz::drill::{Drill, Followed};
use crate::quiz::no_question::NoQuestion;
use crate::quiz::prompt::Prompt;
use crate::quiz::question::Question;
use crate::theory::{Degree, Key, Pitch};

pub(super) fn ask(question: &mut Question, drill: &Drill) -> Result<(), NoQuestion> {
    let line = &question.progression.line;
    let found = question.progression.occurrence(&question.wanted);
    let own = found.ok_or_else(|| unsuited(question))?.own.clone();
    // From the chord before the device to the one that it leads to.
    let last = own.end.min(line.slots().len() - 1);
    let slots: Vec<usize> = (own.start.saturating_sub(1)..=last).collect();
    let paths = match drill.followed {
        Followed::Bass => {
            let bass = |slot: &usize| line.slots()[*slot].numeral.sounding_bass();
            vec![slots.iter().map(bass).collect()]
        }
        Followed::Telling => telling(question, &slots)?,
    };
    let moves = |path: &Vec<Degree>| path.windows(2).any(|pair| pair[0] != pair[1]);
    if !paths.first().is_some_and(moves) {
        return Err(unsuited(question));
    }
    let devices = question.progression.devices_at(own.start);
    let devices = devices
        .filter(|id| drill.devices.contains(id))
        .cloned()
        .collect();
    question.asks = vec![Ask::Degrees(DegreesAsk::new(slots.clone(), paths, devices))];
    question.pointed = slots;
    let voice = match drill.followed {
        Followed::Bass => "the bass",
        Followed::Telling => "the upper voice that leaves the key",
    };
    let prompt = format!("Which degrees does {voice} go through?");
    question.prompt = Prompt::Plain(prompt);
    Ok(())
}

/// The paths of the upper voices that go by steps and through a note outside the key, those
/// with the most such notes, the highest first.
fn telling(question: &Question, slots: &[usize]) -> Result<Vec<Vec<Degree>>, NoQuestion> {
    let key = question.key();
    let request = Arrangement {
        texture: question.texture,
        tempo: f32::from(question.tempo),
        variation: question.seed,
    };
    let passage = arrange(&question.progression.line, key, &request);
    let passage = passage.map_err(NoQuestion::TooRemote)?;
    let outside = |path: &Vec<Degree>| path.iter().filter(|degree| !key.holds(**degree)).count();
    let mut paths: Vec<Vec<Degree>> = (0..UPPER_VOICES)
        .rev()
        .filter_map(|voice| path(&passage, Voice::Upper(voice), slots, key))
        .filter(|path| outside(path) > 0)
        .collect();
    let most = paths.iter().map(outside).max().unwrap_or(0);
    paths.retain(|path| outside(path) == most);
    paths.dedup();
    Ok(paths)
}

/// More upper voices than any texture has.
const UPPER_VOICES: u8 = 8;

/// The most semitones of a step.
const STEP: i32 = 2;

/// The degrees of a voice where each chord begins, if it is there in every chord and never
/// leaps.
fn path(passage: &Passage, voice: Voice, slots: &[usize], key: Key) -> Option<Vec<Degree>> {
    let first = |slot: &usize| -> Option<Pitch> {
        let span = passage.chords.iter().find(|span| span.chord == *slot)?;
        let within = |start| (span.start..span.end).contains(&start);
        let notes = passage.notes.iter().filter(|note| note.voice == voice);
        let notes = notes.filter(|note| within(note.start));
        notes.min_by_key(|note| note.start).map(|note| note.pitch)
    };
    let pitches: Vec<Pitch> = slots.iter().map(first).collect::<Option<_>>()?;
    let is_step = |pair: &[Pitch]| (pair[0].midi() - pair[1].midi()).abs() <= STEP;
    let steps = pitches.windows(2).all(is_step);
    steps.then(|| {
        pitches
            .iter()
            .map(|pitch| key.degree(pitch.class))
            .collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::devices::{Catalogue, DeviceId};
    use crate::harmony::Progression;
    use crate::quiz::tests::drill;
    use crate::theory::{BareSix, Line, Meter, Notation};

    /// Lines of the handbooks with the degrees they name: the sinking sixth of minor iv and
    /// the raised tonic of V7/ii (Open Music Theory v1, "Modal mixture" and "Applied
    /// chords"), the lowered seventh of V7/IV and the sharp fourth of V7/V (Music Theory for
    /// the 21st-Century Classroom, "Secondary dominants"), the rising and falling basses of
    /// passing diminished sevenths and of inversions (Open Music Theory v1, "Harmonic
    /// syntax"; the falling one common practice).
    #[test]
    fn voices_go_where_the_handbooks_say() {
        let catalogue = Catalogue::built_in();
        for (device, text, followed, path) in [
            (
                "minor-four",
                "IV | iv | I | V7",
                Followed::Telling,
                "6 b6 5",
            ),
            (
                "dominant-of-two",
                "I | V7/ii | ii | V7",
                Followed::Telling,
                "1 #1 2",
            ),
            (
                "dominant-of-four",
                "I | V7/IV | IV | I",
                Followed::Telling,
                "1 b7 6",
            ),
            (
                "dominant-of-five",
                "IV | V7/V | V | I",
                Followed::Telling,
                "4 #4 5",
            ),
            (
                "ascending-passing-diminished",
                "I | #io7 | ii7 | V7",
                Followed::Bass,
                "1 #1 2",
            ),
            (
                "descending-passing-diminished",
                "I/3 | biiio7 | ii7 | V7",
                Followed::Bass,
                "3 b3 2",
            ),
            (
                "passing-inversions",
                "I | V/2 | I/3 | IV",
                Followed::Bass,
                "1 2 3 4",
            ),
        ] {
            let wanted: DeviceId = device.parse().expect("an id");
            let drill = Drill {
                followed,
                ..drill(&[device])
            };
            let made = crate::quiz::Question::new(&drill, &catalogue, &wanted, 1);
            let mut question = made.expect("a question");
            let line = Line::read(text, Meter::FourFour, BareSix::AddedSixth).expect("a line");
            let key = "C".parse().expect("a key");
            question.progression = Progression::new(key, line, &catalogue);
            // Where the other voices put it differs; one of these arrangements has it whole.
            let is_found = (0..40).any(|seed| {
                question.seed = seed;
                let asked = ask(&mut question, &drill);
                asked.is_ok()
                    && question.asks[0]
                        .accepted(Notation::Text)
                        .contains(&path.to_owned())
            });
            assert!(is_found, "{text}: {path}");
        }
    }
}

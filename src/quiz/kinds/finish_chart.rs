//! Finish the chart: some chords are given, the others are asked.

use rand::RngExt;
use rand_chacha::ChaCha8Rng;

use super::name_chords::{chords, slots};
use super::suited::{common, marked, unsuited};
use crate::devices::Catalogue;
use crate::quiz::drill::{Asked, Drill};
use crate::quiz::no_question::NoQuestion;
use crate::quiz::prompt::Prompt;
use crate::quiz::question::Question;

pub(super) fn ask(
    question: &mut Question,
    drill: &Drill,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Result<(), NoQuestion> {
    let common = common(question, drill, catalogue);
    let marked = marked(question, &common).ok_or_else(|| unsuited(question))?;
    let mut open = slots(question, drill.asked, &common).ok_or_else(|| unsuited(question))?;
    if drill.asked != Asked::MarkedChord {
        // A chart with nothing in it is another kind: much of it is given, more of what
        // comes again and again.
        let slots = question.progression.line.slots();
        let again = |slot: usize| {
            let like = open
                .iter()
                .filter(|other| slots[**other].numeral == slots[slot].numeral);
            like.count()
        };
        let kept: Vec<usize> = open
            .iter()
            .copied()
            .filter(|slot| {
                let share = 1.0 / again(*slot).max(2) as f64;
                *slot == marked || random.random_bool(share)
            })
            .collect();
        open = kept;
    }
    let all = 0..question.progression.line.slots().len();
    question.given = all.filter(|slot| !open.contains(slot)).collect();
    if question.given.is_empty() {
        return Err(unsuited(question));
    }
    question.asks = chords(question, drill, catalogue, &common, &open, random);
    question.prompt = Prompt::Plain("Which chord is missing?".to_owned());
    Ok(())
}

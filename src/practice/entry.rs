//! From an answered question to the journal's entry.

use crate::devices::Catalogue;
use crate::harmony::ChordInContext;
use crate::journal::{Entry, FORMAT, SlotAnswer};
use crate::quiz::{Answered, Ask, Hardness, Mark, Material};
use crate::scorer::{difficulty, key_setting};
use crate::theory::Notation;

/// What an entry says besides the question and its marks.
pub(super) struct Circumstances<'a> {
    pub(super) learner: &'a str,
    pub(super) session: &'a str,
    /// How many answers of the session came before, in all its drills.
    pub(super) number: u64,
    pub(super) exercise: &'a str,
    /// The seed of the drill.
    pub(super) seed: u64,
}

/// The journal's entry for an answered question.
pub(super) fn entry(
    answered: &Answered,
    circumstances: &Circumstances<'_>,
    catalogue: &Catalogue,
) -> Entry {
    let question = &answered.question;
    let slots = question
        .asks
        .iter()
        .zip(&answered.marks)
        .map(|(ask, mark)| slot_answer(ask, mark, question.material(), catalogue))
        .collect();
    Entry {
        version: FORMAT,
        id: format!("{}-{}", circumstances.session, circumstances.number),
        time: answered.at,
        learner: circumstances.learner.to_owned(),
        session: circumstances.session.to_owned(),
        exercise: circumstances.exercise.to_owned(),
        seed: circumstances.seed,
        index: answered.index,
        kind: question.kind.id().to_owned(),
        key: question.key().to_string(),
        line: question.progression.line.to_string(),
        tempo: f64::from(question.tempo),
        sound: question.sound.clone(),
        texture: question.texture.id().to_owned(),
        key_setting: key_setting(question.key_given),
        answers: question.answers() as u32,
        difficulty: difficulty(Hardness::of(question), answered.nearness),
        thinking: answered.thinking,
        replays: answered.replays,
        explained: answered.explained,
        slots,
    }
}

/// The answers on offer, the right one first.
fn offers(ask: &Ask, material: Material<'_>, catalogue: &Catalogue) -> Vec<String> {
    let mut offers = ask.labels(Notation::Text);
    let is_right = |choice: &usize| {
        let mut ask = ask.clone();
        let taken = ask.choose(*choice);
        let mark = ask.mark(material, catalogue);
        taken && mark.is_some_and(|mark| mark.tier.is_right())
    };
    match (0..offers.len()).find(is_right) {
        Some(right) => offers[..=right].rotate_right(1),
        // Without the right one nothing can be told of the others.
        None => offers.clear(),
    }
    offers
}

fn slot_answer(
    ask: &Ask,
    mark: &Mark,
    material: Material<'_>,
    catalogue: &Catalogue,
) -> SlotAnswer {
    let sounding = ask.chord();
    let of_chord = |text: fn(&ChordInContext) -> String| sounding.map(text).unwrap_or_default();
    SlotAnswer {
        slot: ask.slot().unwrap_or(0) as u32,
        devices: ask.devices().to_vec(),
        truth: sounding.map_or_else(
            || ask.truth(Notation::Text),
            |sounding| sounding.truth.to_string(),
        ),
        function: of_chord(|sounding| sounding.role.words(sounding.mode, Notation::Text)),
        quality: of_chord(|sounding| sounding.truth.quality().symbol_suffix(Notation::Text)),
        degree: of_chord(|sounding| sounding.truth.root().to_string()),
        bass: of_chord(|sounding| sounding.truth.sounding_bass().to_string()),
        answer: ask.given(Notation::Text).unwrap_or_default(),
        mark: mark.tier.name().to_owned(),
        credit: mark.credit,
        heard_as: mark.heard_as.clone(),
        offers: offers(ask, material, catalogue),
    }
}

//! `plagal question`: the questions that a seed makes, with their truth and without sound.

use clap::Args;
use serde_json::{Value, json};

use super::context::{Context, beats, print};
use super::failure::Failure;
use super::options::whole;
use super::practising::exercise;
use super::shelves;
use crate::devices::DeviceId;
use crate::quiz::{Drill, NoQuestion, Question, from_bag, place, question_seed};
use crate::theory::Chord;

/// Show the questions that a seed makes, with what is accepted
#[derive(Debug, Args)]
pub(super) struct Questions {
    /// An exercise's id or file
    exercise: String,
    /// The seed of the drill
    #[arg(long, value_name = "N", default_value_t = 1, allow_negative_numbers = true, value_parser = whole(0..=u64::MAX))]
    seed: u64,
    /// How many questions
    #[arg(long, value_name = "K", default_value_t = 1, allow_negative_numbers = true, value_parser = whole(1..=1_000_000_u32))]
    count: u32,
}

impl Questions {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        let catalogue = shelves::catalogue(&shelves::devices(context))?;
        let drill = exercise(&self.exercise, &catalogue, context)?.drill(context.bare_six);
        for index in 0..self.count {
            let wanted = from_bag(&drill, self.seed, index);
            let seed = question_seed(self.seed, index);
            let question = Question::new(&drill, &catalogue, wanted, seed)
                .map_err(|refused| refusal(&self.exercise, &refused))?;
            if context.json {
                context.print_json(&object(&drill, &question, self.seed, index, context))?;
            } else {
                print(&text(&question, index, context))?;
            }
        }
        Ok(())
    }
}

pub(super) fn refusal(exercise: &str, refused: &NoQuestion) -> Failure {
    Failure::Impossible {
        name: exercise.to_owned(),
        why: refused.to_string(),
    }
}

/// The question as other programs read it.
pub(super) fn object(
    drill: &Drill,
    question: &Question,
    seed: u64,
    index: u32,
    context: &Context,
) -> Value {
    let notation = context.data_notation();
    let progression = &question.progression;
    let line = &progression.line;
    let slots: Vec<Value> = line
        .slots()
        .iter()
        .enumerate()
        .map(|(slot, chord)| {
            let ask = question.ask_at(slot).map(|ask| &question.asks[ask]);
            let spelled = Chord::new(&chord.numeral, question.key()).ok();
            let accepted = ask.map_or_else(Vec::new, |ask| ask.accepted(notation));
            json!({
                "slot": slot,
                "asked": ask.is_some(),
                "numeral": chord.numeral.written(notation),
                "symbol": spelled.as_ref().map(|chord| chord.written(notation)),
                "notes": spelled.as_ref().map(|chord| {
                    chord.notes().iter().map(|note| note.written(notation)).collect::<Vec<_>>()
                }),
                "bar": line.bar(slot),
                "beats": beats(chord.length),
                "accepted": accepted,
                "devices": progression.devices_at(slot).collect::<Vec<_>>(),
            })
        })
        .collect();
    let devices: Vec<&DeviceId> = progression
        .devices
        .iter()
        .map(|found| &found.device)
        .collect();
    json!({
        "exercise": drill.exercise,
        "seed": seed,
        "index": index,
        "kind": question.kind.id(),
        "wanted": question.wanted,
        "key": question.key().written(notation),
        "meter": question.meter().to_string(),
        "tempo": question.tempo,
        "sound": question.sound,
        "texture": question.texture.id(),
        "line": line.written(notation),
        "slots": slots,
        "devices": devices,
        "answers": question.answers(),
        "asks": question.asks.iter().map(|ask| json!({
            "slot": ask.slot(),
            "prompt": question.prompt_of(ask, notation),
            "offers": ask.labels(notation),
            "truth": ask.truth(notation),
            "accepted": ask.accepted(notation),
            "devices": ask.devices(),
        })).collect::<Vec<_>>(),
        "other": question.other.as_ref().map(|other| json!({
            "line": other.progression.line.written(notation),
            "first": other.is_first,
        })),
    })
}

fn text(question: &Question, index: u32, context: &Context) -> String {
    let notation = context.notation();
    let line = question.progression.line.written(notation);
    let mut text = format!(
        "{}  {}  {line}\n",
        index + 1,
        question.key().written(notation)
    );
    for ask in &question.asks {
        let place = ask.slot().map_or_else(String::new, |slot| {
            format!("{}: ", place(&question.progression.line, slot))
        });
        let truth = ask.truth(notation);
        let names = ask.accepted(notation);
        let also = if names == [truth.as_str()] {
            String::new()
        } else {
            format!(" (accepted: {})", names.join(", "))
        };
        let offers = ask.labels(notation);
        let offers = if offers.is_empty() {
            String::new()
        } else {
            format!("  of {}", offers.join(", "))
        };
        text += &format!("   {place}{truth}{also}{offers}\n");
    }
    text
}

//! A question of the plain drill, in words or as JSON.

use std::io::{self, IsTerminal};

use serde_json::json;

use super::context::{Context, beats, print};
use super::failure::Failure;
use crate::devices::Catalogue;
use crate::quiz::{AnswerManner, Asking, Question, place};
use crate::theory::Notation;

/// The question: what is known of it, and its bars with a `?` for each asked chord.
pub(super) fn question(
    context: &Context,
    asking: &Asking,
    catalogue: &Catalogue,
) -> Result<(), Failure> {
    let question = &asking.question;
    let line = &question.progression.line;
    let given = question.key_given != crate::quiz::KeyGiven::Nothing;
    if context.json {
        let slots: Vec<_> = (0..line.slots().len())
            .map(|slot| {
                json!({
                    "slot": slot,
                    "asked": question.ask_at(slot).is_some(),
                    "pointed": question.pointed.contains(&slot),
                    "given": question.given.contains(&slot)
                        .then(|| line.slots()[slot].numeral.written(context.data_notation())),
                    "bar": line.bar(slot),
                    "beats": beats(line.slots()[slot].length),
                })
            })
            .collect();
        let offers: Vec<Vec<String>> = question
            .asks
            .iter()
            .map(|ask| ask.labels(context.data_notation()))
            .collect();
        return context.print_json(&json!({
            "event": "question",
            "kind": question.kind.id(),
            "key": given.then(|| question.key().to_string()),
            "tempo": question.tempo,
            "sound": question.sound,
            "texture": question.texture.id(),
            "explained": asking.explained,
            "prompt": question.prompt.written(context.data_notation()),
            "slots": slots,
            "offers": offers,
        }));
    }
    let key = if given {
        question.key().written(context.notation())
    } else {
        "not given".to_owned()
    };
    print(&format!(
        "\nkey {key}, {} beats a minute, {}\n{}{}\n",
        question.tempo,
        question.sound,
        explanation(context, asking, catalogue),
        chart(question, context.notation())
    ))
}

/// The bars with what is known of their chords: a `?` for what is asked, chords that are
/// given by name, and by number where numbers are the answer.
fn chart(question: &Question, notation: Notation) -> String {
    let line = &question.progression.line;
    if question.other.is_some() {
        return format!("Two lines of {} bars, one after the other.", line.bars());
    }
    let numbered = question
        .asks
        .iter()
        .any(|ask| ask.manner() == AnswerManner::OnChart);
    let sign = |slot: usize| {
        if question.ask_at(slot).is_some() || question.pointed.contains(&slot) {
            "?".to_owned()
        } else if question.given.contains(&slot) {
            line.slots()[slot].numeral.written(notation)
        } else if numbered {
            (slot + 1).to_string()
        } else {
            ".".to_owned()
        }
    };
    let mut bars: Vec<Vec<String>> = vec![Vec::new(); line.bars() as usize];
    for slot in 0..line.slots().len() {
        bars[line.bar(slot) as usize - 1].push(sign(slot));
    }
    let bar = |signs: &Vec<String>| match signs.len() {
        0 => "%".to_owned(),
        _ => signs.join(" "),
    };
    let bars: Vec<String> = bars.iter().map(bar).collect();
    format!("| {} |", bars.join(" | "))
}

/// What tells devices apart that do not come apart by themselves.
fn explanation(context: &Context, asking: &Asking, catalogue: &Catalogue) -> String {
    let devices = asking.explained.iter().filter_map(|id| catalogue.get(id));
    let mut text = String::new();
    for device in devices {
        let name = context.style.safe(device.name());
        let tell = context.style.safe(&device.tell);
        text += &format!("  {name}: {tell}.\n");
    }
    if !text.is_empty() {
        text.insert_str(0, "These do not come apart yet. Listen for:\n");
    }
    text
}

/// What the next answer is to.
pub(super) fn prompt(context: &Context, asking: &Asking) -> Result<(), Failure> {
    if context.json {
        return Ok(());
    }
    let ask = asking.ask();
    let asked = match ask.slot() {
        Some(slot) => place(&asking.question.progression.line, slot),
        None => asking.question.prompt.written(context.notation()),
    };
    let labels = ask.labels(context.notation());
    let offers: Vec<String> = labels
        .iter()
        .enumerate()
        .map(|(at, label)| format!("{} {label}", at + 1))
        .collect();
    let offers = if offers.is_empty() {
        String::new()
    } else {
        format!("  ({})", offers.join(", "))
    };
    // Where answers are not echoed by a terminal, each prompt has a line of its own.
    let end = if io::stdin().is_terminal() { " " } else { "\n" };
    print(&format!("{asked}{offers}:{end}"))
}

//! What the plain drill says, in words or as JSON.

use std::io::{self, IsTerminal};

use serde_json::json;

use super::context::{Context, beats, print};
use super::failure::{Failure, tell as tell_message};
use super::render_error::Message;
use crate::arranging::Strand;
use crate::devices::{Catalogue, DeviceId};
use crate::quiz::{Answered, Asking, Count, Hearing, Tally, Truth};

/// The words that are no answers.
pub(super) const HELP: &str = "Answer with a numeral or its number. An empty line plays again; `chord`, `bass`, `inner`, \
     `top`, `slower`, `key` play a part of it; `quit` leaves.";

/// What a typed word means.
pub(super) enum Word<'w> {
    Nothing,
    Hear(Hearing),
    /// The line with the answer in it.
    Mine,
    Leave,
    Answer(&'w str),
}

impl<'w> Word<'w> {
    pub(super) fn of(word: &'w str) -> Self {
        match word {
            "" => Self::Nothing,
            "again" => Self::Hear(Hearing::Line),
            "chord" => Self::Hear(Hearing::Slot(0)),
            "bass" => Self::Hear(Hearing::Strand(Strand::Bass)),
            "inner" => Self::Hear(Hearing::Strand(Strand::Inner)),
            "top" => Self::Hear(Hearing::Strand(Strand::Top)),
            "slower" => Self::Hear(Hearing::Slower),
            "key" => Self::Hear(Hearing::Key),
            "mine" => Self::Mine,
            "quit" => Self::Leave,
            answer => Self::Answer(answer),
        }
    }
}

/// Tells something on standard error.
pub(super) fn tell(context: &Context, text: &str) {
    tell_message(
        &Message::plain(text.to_owned()),
        context.json,
        context.error_style,
    );
}

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
                    "bar": line.bar(slot),
                    "beats": beats(line.slots()[slot].length),
                })
            })
            .collect();
        let offers: Vec<Vec<String>> = question
            .asks
            .iter()
            .map(|ask| ask.form.labels(context.data_notation()))
            .collect();
        return context.print_json(&json!({
            "event": "question",
            "kind": question.kind.id(),
            "key": given.then(|| question.key().to_string()),
            "tempo": question.tempo,
            "sound": question.sound,
            "texture": question.texture.id(),
            "explained": asking.explained,
            "slots": slots,
            "offers": offers,
        }));
    }
    let key = if given {
        question.key().written(context.notation())
    } else {
        "not given".to_owned()
    };
    let mut bars: Vec<Vec<&str>> = vec![Vec::new(); line.bars() as usize];
    for slot in 0..line.slots().len() {
        let sign = if question.ask_at(slot).is_some() {
            "?"
        } else {
            "."
        };
        bars[line.bar(slot) as usize - 1].push(sign);
    }
    let bars: Vec<String> = bars.iter().map(|bar| bar.join(" ")).collect();
    print(&format!(
        "\nkey {key}, {} beats a minute, {}\n{}| {} |\n",
        question.tempo,
        question.sound,
        explanation(context, asking, catalogue),
        bars.join(" | ")
    ))
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
    let place = match ask.slot {
        Some(slot) => format!("bar {}", asking.question.progression.line.bar(slot)),
        None => asking.question.prompt.written(context.notation()),
    };
    let labels = ask.form.labels(context.notation());
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
    print(&format!("{place}{offers}:{end}"))
}

/// The marks of a question, and the line as it was.
pub(super) fn marks(
    context: &Context,
    answered: &Answered,
    catalogue: &Catalogue,
) -> Result<(), Failure> {
    let question = &answered.question;
    for (ask, mark) in question.asks.iter().zip(&answered.marks) {
        if context.json {
            let notation = context.data_notation();
            let accepted: Vec<String> = match &ask.truth {
                Truth::Chord(sounding) => sounding
                    .accepted()
                    .iter()
                    .map(|name| name.written(notation))
                    .collect(),
                Truth::Choice(_) | Truth::Key(_) | Truth::Slots(_) | Truth::Yes(_) => {
                    vec![ask.truth_written(notation)]
                }
            };
            context.print_json(&json!({
                "event": "mark",
                "slot": ask.slot,
                "answer": mark.answer.written(&ask.form, notation),
                "mark": mark.tier.name(),
                "credit": mark.credit,
                "truth": ask.truth_written(notation),
                "accepted": accepted,
                "devices": ask.devices,
                "heard_as": mark.heard_as,
                "reason": answered.reason,
            }))?;
            continue;
        }
        let sign = if mark.tier.is_right() {
            "right"
        } else {
            "not so"
        };
        let place = ask
            .slot
            .map(|slot| format!("bar {}, ", question.progression.line.bar(slot)))
            .unwrap_or_default();
        let said = mark.sentences(question, ask, context.notation()).join(" ");
        print(&format!("{place}{sign}: {said}\n"))?;
        if let (false, Some(device)) = (
            mark.tier.is_right(),
            ask.devices.first().and_then(|id| catalogue.get(id)),
        ) {
            let name = context.style.safe(device.name());
            let tell = context.style.safe(&device.tell);
            print(&format!("  {name}, what gives it away: {tell}.\n"))?;
        }
    }
    if context.json {
        return Ok(());
    }
    let line = question.progression.line.written(context.notation());
    print(&format!(
        "It was: {line}\nAsked because: {}.\nEnter goes on; `mine` plays your answer in it, `again` the line.\n",
        context.style.safe(&answered.reason)
    ))
}

/// How the drill went.
pub(super) fn end(context: &Context, tally: &Tally, catalogue: &Catalogue) -> Result<(), Failure> {
    if context.json {
        let device = |(id, count): (&DeviceId, &Count)| json!({ "id": id, "asked": count.asked, "right": count.right });
        return context.print_json(&json!({
            "event": "end",
            "questions": tally.questions,
            "answers": tally.answers,
            "right": tally.right,
            "credit": tally.credit,
            "devices": tally.devices.iter().map(device).collect::<Vec<_>>(),
        }));
    }
    let mut text = format!("\n{} of {} answers right.\n", tally.right, tally.answers);
    for (id, count) in tally.missed() {
        let name = catalogue
            .get(id)
            .map_or(id.as_str(), |device| device.name());
        let name = context.style.safe(name);
        text += &format!("Missed: {name}, {} of {}.\n", count.missed(), count.asked);
    }
    print(&text)
}

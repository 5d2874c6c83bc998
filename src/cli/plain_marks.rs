//! The marks of the plain drill and its end, in words or as JSON.

use serde_json::json;

use super::context::{Context, print};
use super::failure::Failure;
use crate::devices::{Catalogue, DeviceId};
use crate::quiz::{Answered, Count, Hearing, Tally, place};

/// The first answer that can be heard beside the line.
pub(super) fn playback(answered: &Answered) -> Option<Hearing> {
    answered.playback.iter().flatten().next().cloned()
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
            context.print_json(&json!({
                "event": "mark",
                "slot": ask.slot(),
                "answer": ask.given(notation),
                "mark": mark.tier.name(),
                "credit": mark.credit,
                "truth": ask.truth(notation),
                "accepted": ask.accepted(notation),
                "devices": ask.devices(),
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
        let at = ask
            .slot()
            .map(|slot| format!("{}, ", place(&question.progression.line, slot)))
            .unwrap_or_default();
        let said = ask
            .diagnosis(mark, question.material(), context.notation())
            .join(" ");
        print(&format!("{at}{sign}: {said}\n"))?;
        if let (false, Some(device)) = (
            mark.tier.is_right(),
            ask.cue(question.material())
                .and_then(|id| catalogue.get(id)),
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
    let replays = match playback(answered) {
        Some(Hearing::Other) => "`mine` plays the other line, `again` this one",
        Some(_) => "`mine` plays your answer in it, `again` the line",
        None => "`again` plays the line",
    };
    print(&format!(
        "It was: {line}\nAsked because: {}.\nEnter goes on; {replays}.\n",
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
    let mut text = match tally.answers {
        0 => "\nNothing was answered.\n".to_owned(),
        answers => format!("\n{} of {answers} answers right.\n", tally.right),
    };
    for (id, count) in tally.missed() {
        let name = catalogue
            .get(id)
            .map_or(id.as_str(), |device| device.name());
        let name = context.style.safe(name);
        text += &format!("Missed: {name}, {} of {}.\n", count.missed(), count.asked);
    }
    print(&text)
}

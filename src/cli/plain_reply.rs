//! A line of standard input as the answer to an open question.

use crate::quiz::{Ask, Asking, Event, Form, Millis};
use crate::theory::Notation;

/// How an answer to this form is typed, in a sentence.
pub(super) fn manner(form: &Form) -> &'static str {
    match form {
        Form::Numeral { choices } if choices.is_empty() => {
            "Answer with a numeral, such as `iv` or `V7/ii`; several in one line where several are asked."
        }
        Form::Numeral { .. } => {
            "Answer with a numeral or its number; several in one line where several are asked."
        }
        Form::OneOf { .. } => "Answer with one of the answers or its number.",
        Form::Key { .. } => "Answer with a key or its number.",
        Form::Slots => "Answer with the numbers of the chords, all in one line.",
    }
}

/// What a line means as an answer.
///
/// # Errors
/// What is wrong with it, when nothing of it can be an answer. What is typed as a numeral
/// is read later.
pub(super) fn read(line: &str, asking: &Asking, now: Millis) -> Result<Vec<Event>, String> {
    match &asking.ask().form {
        Form::Numeral { .. } => numerals(line, asking, now),
        Form::Slots => slots(line, asking, now),
        form @ (Form::OneOf { .. } | Form::Key { .. }) => {
            let choice = choice(line, form)?;
            Ok(vec![Event::Choose { choice, now }])
        }
    }
}

/// One numeral for each chord that is still open, or for the first of them.
fn numerals(line: &str, asking: &Asking, now: Millis) -> Result<Vec<Event>, String> {
    let words: Vec<&str> = line.split_whitespace().collect();
    let open = open(asking);
    if words.len() > open.len() {
        return Err(format!(
            "`{line}` holds {} answers; expected at most {}",
            words.len(),
            open.len()
        ));
    }
    let read = |(word, ask): (&&str, &&Ask)| match word.parse::<usize>() {
        Ok(_) if ask.form.offers() > 0 => {
            let choice = choice(word, &ask.form)?;
            Ok(Event::Choose { choice, now })
        }
        Ok(_) | Err(_) => Ok(Event::Type {
            text: (*word).to_owned(),
            now,
        }),
    };
    words.iter().zip(&open).map(read).collect()
}

/// The asks without an answer, in the order in which answers come.
fn open(asking: &Asking) -> Vec<&Ask> {
    let count = asking.answers.len();
    (0..count)
        .map(|step| (asking.current + step) % count)
        .filter(|ask| asking.answers[*ask].is_none())
        .map(|ask| &asking.question.asks[ask])
        .collect()
}

/// The numbers of chords, which are the whole answer.
fn slots(line: &str, asking: &Asking, now: Millis) -> Result<Vec<Event>, String> {
    let count = asking.question.progression.line.slots().len();
    let mut slots = Vec::new();
    for word in line.split([' ', '\t', ',']).filter(|word| !word.is_empty()) {
        match word.parse::<usize>() {
            Ok(number) if (1..=count).contains(&number) => slots.push(number - 1),
            Ok(_) | Err(_) => {
                return Err(format!(
                    "`{word}` is no chord's number; expected numbers from 1 to {count}"
                ));
            }
        }
    }
    slots.sort_unstable();
    slots.dedup();
    let toggles = slots.into_iter().map(|slot| Event::Toggle { slot });
    Ok(toggles.chain([Event::Submit { now }]).collect())
}

/// One of the answers on offer, by its number or in its own words.
fn choice(text: &str, form: &Form) -> Result<usize, String> {
    let offers = form.offers();
    let by_number = || {
        let number = text.parse::<usize>().ok()?;
        (1..=offers).contains(&number).then(|| number - 1)
    };
    let by_label = || {
        [Notation::Screen, Notation::Text, Notation::Ascii]
            .into_iter()
            .find_map(|notation| {
                let labels = form.labels(notation);
                let is_meant = |label: &String| label.to_lowercase() == text.to_lowercase();
                labels.iter().position(is_meant)
            })
    };
    by_number().or_else(by_label).ok_or_else(|| {
        format!("`{text}` is not an answer; expected one of those on offer, or its number, 1 to {offers}")
    })
}

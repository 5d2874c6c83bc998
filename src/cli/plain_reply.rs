//! A line of standard input as the answer to an open question.

use crate::quiz::{Asking, Event, Millis};

/// What a line means as an answer: a word for each chord that is still open, or for the
/// first of them; where one thing is open, the whole line is its answer.
///
/// # Errors
/// If it holds more answers than are wanted. What an answer is made of is read later.
pub(super) fn read(line: &str, asking: &Asking, now: Millis) -> Result<Vec<Event>, String> {
    let open = asking.open().count();
    let event = |text: &str| Event::Type {
        text: text.to_owned(),
        now,
    };
    if asking.question.asks.len() == 1 {
        return Ok(vec![event(line)]);
    }
    let words: Vec<&str> = line.split_whitespace().collect();
    if words.len() > open {
        let count = words.len();
        return Err(format!(
            "`{line}` holds {count} answers; expected at most {open}"
        ));
    }
    Ok(words.into_iter().map(event).collect())
}

//! How a text that cannot be read is quoted in a message.

/// The text, cut where it is too long to be looked at.
pub(crate) fn quoted(text: &str) -> String {
    const LONGEST: usize = 60;
    match text.char_indices().nth(LONGEST) {
        None => text.to_owned(),
        Some((end, _)) => format!("{}…", &text[..end]),
    }
}

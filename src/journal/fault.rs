//! What can be wrong with a line of the journal.

use std::fmt;

use crate::document::shown;

/// More of what is wrong need not be told: what was found may be as long as the line.
const LONGEST: usize = 200;

/// Why a line could not be read as an entry. The line itself is never thrown away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JournalFault {
    /// Where in the line, in bytes from 1; 0 when the line as a whole is meant.
    pub column: usize,
    /// What was found there or expected, in words, with nothing that a terminal would obey.
    pub what: String,
}

impl JournalFault {
    /// The fault of bytes that are no text.
    #[must_use]
    pub fn not_utf8(column: usize) -> Self {
        Self {
            column,
            what: "expected UTF-8 text".to_owned(),
        }
    }

    pub(super) fn from_json(error: &serde_json::Error) -> Self {
        let text = error.to_string();
        let place = format!(" at line {} column {}", error.line(), error.column());
        let what = text.strip_suffix(&place).unwrap_or(&text);
        Self {
            column: error.column(),
            what: shown(what).chars().take(LONGEST).collect(),
        }
    }
}

impl fmt::Display for JournalFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.column > 0 {
            write!(f, "column {}: {}", self.column, self.what)
        } else {
            f.write_str(&self.what)
        }
    }
}

impl std::error::Error for JournalFault {}

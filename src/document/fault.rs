//! What is wrong in a file, where, and what was expected there.

use std::fmt;
use std::ops::Range;

use super::place::{self, Place};
use super::shown::shown;

/// One thing wrong at one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Where it is in the file.
    pub place: Place,
    /// Characters to point at, from the place on; at least one.
    pub width: usize,
    /// The way to the value, such as `devices[2]`; empty for the whole file.
    pub path: String,
    /// What is wrong there.
    pub problem: Problem,
}

/// What is wrong. Text from the file is kept as it stands; only `Display` makes it safe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Problem {
    /// The text is not JSON; `found` is empty at the end of the text.
    Syntax {
        /// The kind of value that stands there.
        found: String,
        /// The kind of value that belongs there.
        expected: &'static str,
    },
    /// Something else stands there.
    Unexpected {
        /// The value as it is written.
        found: String,
        /// The values that are allowed, in words.
        expected: String,
        /// The allowed value whose spelling is nearest.
        near: Option<String>,
    },
    /// A field that must be there is not.
    MissingField {
        /// What may stand there, in words.
        expected: Option<String>,
    },
    /// A field that nobody knows.
    UnknownField {
        /// The known field whose spelling is nearest.
        near: Option<String>,
    },
    /// A field that already stood in the same object.
    RepeatedField {
        /// Where it stands first.
        first: Place,
    },
    /// An entry that already stood in the same list.
    RepeatedEntry {
        /// The entry as it is written.
        found: String,
        /// Where it stands first.
        first: Place,
    },
    /// What the reader of a notation, or a check across fields, says of it.
    Wrong {
        /// What is wrong, in the words of the reader of this field.
        message: String,
        /// What is allowed, in words.
        expected: Option<String>,
        /// The allowed value whose spelling is nearest.
        near: Option<String>,
    },
    /// More faults than are listed.
    More {
        /// How many more.
        count: usize,
    },
}

impl Problem {
    /// A fault in the words of whoever found it.
    #[must_use]
    pub fn wrong(message: impl fmt::Display) -> Self {
        Self::Wrong {
            message: message.to_string(),
            expected: None,
            near: None,
        }
    }

    /// What should stand at the place.
    #[must_use]
    pub fn expected(&self) -> Option<&str> {
        match self {
            Self::Syntax { expected, .. } => Some(expected),
            Self::Unexpected { expected, .. } => Some(expected),
            Self::MissingField { expected } | Self::Wrong { expected, .. } => expected.as_deref(),
            Self::UnknownField { .. }
            | Self::RepeatedField { .. }
            | Self::RepeatedEntry { .. }
            | Self::More { .. } => None,
        }
    }

    /// What was probably meant.
    #[must_use]
    pub fn near(&self) -> Option<&str> {
        match self {
            Self::Unexpected { near, .. }
            | Self::UnknownField { near }
            | Self::Wrong { near, .. } => near.as_deref(),
            Self::Syntax { .. }
            | Self::MissingField { .. }
            | Self::RepeatedField { .. }
            | Self::RepeatedEntry { .. }
            | Self::More { .. } => None,
        }
    }
}

impl fmt::Display for Fault {
    /// What is wrong and what was expected, without the place.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = if self.path.is_empty() {
            "the file".to_owned()
        } else {
            format!("`{}`", brief(&self.path))
        };
        match &self.problem {
            Problem::Syntax { found, .. } if found.is_empty() => {
                f.write_str("the text ends here")?;
            }
            Problem::Syntax { found, .. } if found.starts_with(['\n', '\r']) => {
                f.write_str("the line ends here")?;
            }
            Problem::Syntax { found, .. } => write!(f, "`{}` cannot stand here", brief(found))?,
            Problem::Unexpected { found, .. } => write!(f, "{name} is `{}`", brief(found))?,
            Problem::MissingField { .. } => write!(f, "{name} is missing")?,
            Problem::UnknownField { .. } => write!(f, "{name} is not a field here")?,
            Problem::RepeatedField { first } => write!(f, "{name} already stands at {first}")?,
            Problem::RepeatedEntry { found, first } => {
                write!(f, "{name} repeats `{}` of {first}", brief(found))?;
            }
            Problem::Wrong { message, .. } => write!(f, "{name}: {}", shown(message))?,
            Problem::More { count } => write!(f, "{count} more faults are not listed")?,
        }
        if let Some(expected) = self.problem.expected() {
            write!(f, "; expected {expected}")?;
        }
        if let Some(near) = self.problem.near() {
            write!(f, "; did you mean `{}`?", brief(near))?;
        }
        Ok(())
    }
}

impl std::error::Error for Fault {}

/// The text made safe, and cut where it is too long to quote.
fn brief(text: &str) -> String {
    const LONGEST: usize = 60;
    match text.char_indices().nth(LONGEST) {
        None => shown(text),
        Some((end, _)) => format!("{}…", shown(&text[..end])),
    }
}

/// The faults of one text, collected while it is read.
#[derive(Clone, Debug)]
pub struct Faults {
    text: String,
    list: Vec<Fault>,
    left_out: usize,
}

impl Faults {
    /// As many as anybody reads; the rest is counted.
    const MOST: usize = 200;

    pub(super) fn of(text: &str) -> Self {
        Self {
            text: text.to_owned(),
            list: Vec::new(),
            left_out: 0,
        }
    }

    /// Whether no fault was found.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// How many are listed.
    #[must_use]
    pub fn len(&self) -> usize {
        self.list.len()
    }

    /// The faults in the order of their places.
    pub fn iter(&self) -> impl Iterator<Item = &Fault> {
        self.list.iter()
    }

    /// The text that was read, to show its lines beside the faults.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    pub(super) fn add(&mut self, range: &Range<usize>, path: String, problem: Problem) {
        if self.list.len() >= Self::MOST {
            self.left_out += 1;
            return;
        }
        self.list.push(Fault {
            place: Place::of(&self.text, range.start),
            width: place::width(&self.text, range),
            path,
            problem,
        });
    }

    /// Adds to what was expected by the faults from the one of that number on.
    pub(super) fn expect_also(&mut self, from: usize, also: &str) {
        for fault in self.list.iter_mut().skip(from) {
            if let Problem::Unexpected { expected, .. } = &mut fault.problem {
                *expected = format!("{expected}, {also}");
            }
        }
    }

    pub(super) fn place(&self, range: &Range<usize>) -> Place {
        Place::of(&self.text, range.start)
    }

    /// In the order of places, the count of those left out last.
    pub(super) fn sorted(mut self) -> Self {
        self.list.sort_by_key(|fault| fault.place);
        if self.left_out > 0 {
            let end = self.text.len();
            self.list.push(Fault {
                place: Place::of(&self.text, end),
                width: 1,
                path: String::new(),
                problem: Problem::More {
                    count: self.left_out,
                },
            });
            self.left_out = 0;
        }
        self
    }
}

impl IntoIterator for Faults {
    type Item = Fault;
    type IntoIter = std::vec::IntoIter<Fault>;

    fn into_iter(self) -> Self::IntoIter {
        self.list.into_iter()
    }
}

//! A text that does not name what it should.

use std::borrow::Cow;
use std::fmt;

use super::quoted::quoted;

/// What stood where a note, a degree, a device or another thing was to be named.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NameError {
    /// The text that was read.
    pub text: String,
    /// What it was to be, with its article: `a meter`.
    pub what: &'static str,
    /// What would have been read.
    pub expected: Cow<'static, str>,
}

impl NameError {
    /// `text` is not `what`, as `expected` tells.
    pub(crate) fn new(
        text: &str,
        what: &'static str,
        expected: impl Into<Cow<'static, str>>,
    ) -> Self {
        Self {
            text: text.to_owned(),
            what,
            expected: expected.into(),
        }
    }

    /// `text` is none of these names.
    pub(crate) fn none_of<'n>(
        text: &str,
        what: &'static str,
        names: impl IntoIterator<Item = &'n str>,
    ) -> Self {
        let names: Vec<&str> = names.into_iter().collect();
        Self::new(text, what, format!("one of `{}`", names.join("`, `")))
    }
}

impl fmt::Display for NameError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            text,
            what,
            expected,
        } = self;
        write!(f, "`{}` is not {what}; expected {expected}", quoted(text))
    }
}

impl std::error::Error for NameError {}

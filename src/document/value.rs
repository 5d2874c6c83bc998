//! A JSON value with its place and the way to it.

use std::ops::Range;

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;

use super::fault::{Faults, Problem};

/// A value in a text, knowing where it stands.
#[derive(Clone, Copy, Debug)]
pub struct Value<'v> {
    pub(super) node: &'v ast::Value<'v>,
    text: &'v str,
    parent: Option<(&'v Value<'v>, Step<'v>)>,
}

/// One step of the way to a value.
#[derive(Clone, Copy, Debug)]
pub(super) enum Step<'v> {
    Field(&'v str),
    Entry(usize),
}

/// Where a value stands, kept to report on it after it has been read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot {
    pub(super) range: Range<usize>,
    pub(super) path: String,
}

/// A value together with where it stood. Two are equal if their values are, wherever they
/// stood.
#[derive(Clone, Debug)]
pub struct Placed<T> {
    /// What was read.
    pub value: T,
    /// Where it stands.
    pub spot: Spot,
}

impl<T: PartialEq> PartialEq for Placed<T> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}

impl<'v> Value<'v> {
    pub(super) fn root(node: &'v ast::Value<'v>, text: &'v str) -> Self {
        Self {
            node,
            text,
            parent: None,
        }
    }

    pub(super) fn child<'c>(&'c self, node: &'c ast::Value<'c>, step: Step<'c>) -> Value<'c> {
        Value {
            node,
            text: self.text,
            parent: Some((self, step)),
        }
    }

    /// The way to this value, such as `devices[2]`; empty for the whole file.
    #[must_use]
    pub fn path(&self) -> String {
        let Some((parent, step)) = self.parent else {
            return String::new();
        };
        let before = parent.path();
        match step {
            Step::Field(name) if before.is_empty() => name.to_owned(),
            Step::Field(name) => format!("{before}.{name}"),
            Step::Entry(index) => format!("{before}[{index}]"),
        }
    }

    /// Where this value stands.
    #[must_use]
    pub fn spot(&self) -> Spot {
        Spot {
            range: self.range(),
            path: self.path(),
        }
    }

    pub(super) fn range(&self) -> Range<usize> {
        let range = self.node.range();
        range.start..range.end
    }

    /// As it stands in the text; lists and objects by their kind.
    pub(super) fn quoted(&self) -> String {
        match self.node {
            ast::Value::StringLit(_)
            | ast::Value::NumberLit(_)
            | ast::Value::BooleanLit(_)
            | ast::Value::NullKeyword(_) => self.literal().to_owned(),
            ast::Value::Object(_) => "{…}".to_owned(),
            ast::Value::Array(_) => "[…]".to_owned(),
        }
    }

    /// The stretch of the text that writes this value.
    pub(super) fn literal(&self) -> &'v str {
        self.text.get(self.range()).unwrap_or("")
    }

    /// The string's text, if the value is a string.
    #[must_use]
    pub fn as_text(&self) -> Option<&str> {
        self.node.as_string_lit().map(|literal| &*literal.value)
    }

    /// Whether the value is an object with such a field.
    #[must_use]
    pub fn has(&self, field: &str) -> bool {
        let object = self.node.as_object();
        object.is_some_and(|object| object.get(field).is_some())
    }

    /// Whether the value is a list.
    #[must_use]
    pub fn is_list(&self) -> bool {
        matches!(self.node, ast::Value::Array(_))
    }

    /// Whether the value is an object.
    #[must_use]
    pub fn is_object(&self) -> bool {
        matches!(self.node, ast::Value::Object(_))
    }

    /// Reports that something else was expected here; the answer of a reader that failed.
    pub fn expected<T>(&self, expected: impl Into<String>, faults: &mut Faults) -> Option<T> {
        self.fault(
            Problem::Unexpected {
                found: self.quoted(),
                expected: expected.into(),
                near: None,
            },
            faults,
        )
    }

    /// Reports a problem here; the answer of a reader that failed.
    pub fn fault<T>(&self, problem: Problem, faults: &mut Faults) -> Option<T> {
        faults.add(&self.range(), self.path(), problem);
        None
    }
}

impl Spot {
    /// Reports a problem at this spot.
    pub fn fault(&self, problem: Problem, faults: &mut Faults) {
        faults.add(&self.range, self.path.clone(), problem);
    }
}

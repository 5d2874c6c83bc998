//! The few forms that an answer can take, and the answers themselves.

use crate::theory::{BareSix, Key, Notation, Numeral, NumeralError};

/// The form in which an answer is wanted. The interface knows these and no kinds.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// A numeral for a slot: one of the choices, or typed if there are none.
    Numeral { choices: Vec<Numeral> },
    /// One of several things, in words.
    OneOf { choices: Vec<String> },
    /// A key: one of the choices.
    Key { choices: Vec<Key> },
    /// Any number of the line's slots.
    Slots,
}

impl Form {
    /// How many answers are on offer; 0 when anything may be answered.
    #[must_use]
    pub fn offers(&self) -> usize {
        match self {
            Self::Numeral { choices } => choices.len(),
            Self::OneOf { choices } => choices.len(),
            Self::Key { choices } => choices.len(),
            Self::Slots => 0,
        }
    }

    /// The answers on offer as they are shown; none when anything may be answered.
    #[must_use]
    pub fn labels(&self, notation: Notation) -> Vec<String> {
        match self {
            Self::Numeral { choices } => choices.iter().map(|c| c.written(notation)).collect(),
            Self::OneOf { choices } => choices.clone(),
            Self::Key { choices } => choices.iter().map(|key| key.written(notation)).collect(),
            Self::Slots => Vec::new(),
        }
    }
}

/// An answer, in one of the forms.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// A numeral, with its other reading where the writing has two.
    Numeral {
        numeral: Numeral,
        otherwise: Option<Numeral>,
    },
    /// Index of one of the choices.
    Choice(usize),
    Key(Key),
    /// Slots in ascending order.
    Slots(Vec<usize>),
}

impl Answer {
    /// Reads a typed numeral. A bare six also gets its other reading.
    ///
    /// # Errors
    /// If the text is no numeral.
    pub fn typed(text: &str, six: BareSix) -> Result<Self, NumeralError> {
        let other = match six {
            BareSix::AddedSixth => BareSix::FirstInversion,
            BareSix::FirstInversion => BareSix::AddedSixth,
        };
        let numeral = Numeral::read(text, six)?;
        let otherwise = Numeral::read(text, other)
            .ok()
            .filter(|read| *read != numeral);
        Ok(Self::Numeral { numeral, otherwise })
    }

    /// A numeral that was chosen, not typed.
    #[must_use]
    pub fn chosen(numeral: Numeral) -> Self {
        Self::Numeral {
            numeral,
            otherwise: None,
        }
    }

    /// The answer as it is shown.
    #[must_use]
    pub fn written(&self, form: &Form, notation: Notation) -> String {
        match self {
            Self::Numeral { numeral, .. } => numeral.written(notation),
            Self::Choice(index) => form
                .labels(notation)
                .get(*index)
                .cloned()
                .unwrap_or_default(),
            Self::Key(key) => key.written(notation),
            Self::Slots(slots) if slots.is_empty() => "none".to_owned(),
            Self::Slots(slots) => {
                let numbers: Vec<String> = slots.iter().map(|s| (s + 1).to_string()).collect();
                numbers.join(" ")
            }
        }
    }
}

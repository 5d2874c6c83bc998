//! The stable name of a device.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::theory::NameError;

/// A device's stable id, such as `minor-four`: lower-case words joined by hyphens.
/// It goes into the journal, so it never changes its meaning.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct DeviceId(String);

impl DeviceId {
    /// The id as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for DeviceId {
    type Err = NameError;

    fn from_str(text: &str) -> Result<Self, NameError> {
        let is_word = |word: &str| {
            !word.is_empty()
                && word
                    .bytes()
                    .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
        };
        if text.len() <= 64 && text.split('-').all(is_word) {
            Ok(Self(text.to_owned()))
        } else {
            Err(NameError::new(
                text,
                "a device id",
                "words of a to z joined by `-`",
            ))
        }
    }
}

impl TryFrom<String> for DeviceId {
    type Error = NameError;

    fn try_from(text: String) -> Result<Self, NameError> {
        text.parse()
    }
}

impl From<DeviceId> for String {
    fn from(id: DeviceId) -> Self {
        id.0
    }
}

impl fmt::Display for DeviceId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

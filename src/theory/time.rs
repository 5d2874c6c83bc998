//! Musical time in exact ticks, and meters.

use std::fmt;
use std::str::FromStr;

use super::name_error::NameError;

/// Time in ticks; a beat has [`TICKS_PER_BEAT`].
pub type Ticks = u32;

/// Divides by 2, 3, 5 and 7 and their small powers, so swing and triplets are exact.
pub const TICKS_PER_BEAT: Ticks = 5040;

/// Quarter-note beats in a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Meter {
    /// Two quarter notes a bar.
    TwoFour,
    /// Three quarter notes a bar.
    ThreeFour,
    /// Four quarter notes a bar.
    FourFour,
}

impl Meter {
    /// All metres.
    pub const ALL: [Self; 3] = [Self::TwoFour, Self::ThreeFour, Self::FourFour];

    /// Beats in a bar.
    #[must_use]
    pub const fn beats(self) -> u32 {
        match self {
            Self::TwoFour => 2,
            Self::ThreeFour => 3,
            Self::FourFour => 4,
        }
    }

    /// Ticks in a bar.
    #[must_use]
    pub const fn bar(self) -> Ticks {
        self.beats() * TICKS_PER_BEAT
    }
}

impl fmt::Display for Meter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/4", self.beats())
    }
}

impl FromStr for Meter {
    type Err = NameError;

    fn from_str(text: &str) -> Result<Self, NameError> {
        Self::ALL
            .into_iter()
            .find(|meter| meter.to_string() == text)
            .ok_or_else(|| NameError::new(text, "a meter", "`2/4`, `3/4` or `4/4`"))
    }
}

//! The two manners in which lines are phrased.

/// How a line goes about its phrases.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Phrasing {
    /// Few chords of the key in even measures, home again and again, so that a device
    /// stands out.
    #[default]
    Plain,
    /// As tunes go: cadences that arrive on the odd bar and then hold or turn round, chains
    /// of dominants, harmonic rhythm of many kinds.
    Tune,
}

impl Phrasing {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Plain, Self::Tune];

    /// The word in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Tune => "tune",
        }
    }
}

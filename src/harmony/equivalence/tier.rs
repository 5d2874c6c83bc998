//! The tiers of a mark.

/// How near an answer comes, best first: a tier never has less credit than a later one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Tier {
    /// The same function, whatever its extensions.
    Right,
    /// The same function under another name that stands here.
    OtherName,
    /// A dominant of the same chord, but of another form: vii°7/ii or subV7/ii for V7/ii.
    OtherForm,
    /// The right kind of function, but of another chord: V7/V for V7/ii.
    WrongTarget,
    /// The right root with a quality that does something else.
    WrongQuality,
    /// A part of an answer that has several is right.
    Partly,
    /// The same notes, named for a context that is not this one.
    WrongContext,
    /// Home, away or pull is right, and no more.
    AreaOnly,
    /// None of these.
    Wrong,
}

impl Tier {
    /// All tiers, best first.
    pub const ALL: [Self; 9] = [
        Self::Right,
        Self::OtherName,
        Self::OtherForm,
        Self::WrongTarget,
        Self::WrongQuality,
        Self::Partly,
        Self::WrongContext,
        Self::AreaOnly,
        Self::Wrong,
    ];

    /// The credit that a scorer gives, 0 to 1.
    #[must_use]
    pub const fn credit(self) -> f64 {
        match self {
            Self::Right | Self::OtherName => 1.0,
            Self::Partly
            | Self::OtherForm
            | Self::WrongTarget
            | Self::WrongQuality
            | Self::WrongContext => 0.5,
            Self::AreaOnly => 0.25,
            Self::Wrong => 0.0,
        }
    }

    /// Whether it has the full credit.
    #[must_use]
    pub const fn is_right(self) -> bool {
        matches!(self, Self::Right | Self::OtherName)
    }

    /// The name in the journal.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::OtherName => "other-name",
            Self::OtherForm => "other-form",
            Self::WrongTarget => "wrong-target",
            Self::WrongQuality => "wrong-quality",
            Self::Partly => "partly",
            Self::AreaOnly => "area-only",
            Self::WrongContext => "wrong-context",
            Self::Wrong => "wrong",
        }
    }
}

//! The worlds: ways in which learners may come to hear devices. Several are of families
//! that the scorer's own model does not hold.

/// What makes a simulated learner learn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum World {
    /// Every question teaches the same.
    Flat,
    /// A question teaches most when its success is 58 %.
    PeakLow,
    /// A question teaches most when its success is 80 %.
    PeakHigh,
    /// Fifteen devices in a hundred cannot be learnt.
    Stuck,
    /// A question teaches more shortly after another device of its family.
    Contrast,
    /// A device is not heard at all until, at once, it is.
    AllOrNone,
    /// All devices are alike, so there is nothing to adapt to.
    Alike,
    /// Some devices are heard from the start and some are far away.
    Wide,
    /// Devices are heard by features that they share; neighbours are taken for each other
    /// until the feature that parts them is heard.
    Features,
    /// Attention lapses for a while, and answers are blind then.
    Lapses,
    /// Every day has its mood, good or bad for everything.
    Moods,
    /// A device teaches nothing before the one below it is heard.
    Ladder,
}

impl World {
    /// All worlds.
    pub const ALL: [Self; 12] = [
        Self::Flat,
        Self::PeakLow,
        Self::PeakHigh,
        Self::Stuck,
        Self::Contrast,
        Self::AllOrNone,
        Self::Alike,
        Self::Wide,
        Self::Features,
        Self::Lapses,
        Self::Moods,
        Self::Ladder,
    ];

    /// The name in commands and tables.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::PeakLow => "peak-58",
            Self::PeakHigh => "peak-80",
            Self::Stuck => "stuck",
            Self::Contrast => "contrast",
            Self::AllOrNone => "all-or-none",
            Self::Alike => "alike",
            Self::Wide => "wide",
            Self::Features => "features",
            Self::Lapses => "lapses",
            Self::Moods => "moods",
            Self::Ladder => "ladder",
        }
    }
}

//! The time of day, where the learner is, and fresh seeds.

use std::hash::{BuildHasher, RandomState};
use std::time::{SystemTime, UNIX_EPOCH};

use jiff::tz::TimeZone;

/// Milliseconds since 1970 (UTC); 0 if the clock stands before that.
#[must_use]
pub fn now() -> u64 {
    let since = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .unwrap_or_default();
    u64::try_from(since.as_millis()).unwrap_or(u64::MAX)
}

/// Where the learner is, as far as the system says; else Greenwich.
#[must_use]
pub fn zone() -> TimeZone {
    TimeZone::try_system().unwrap_or(TimeZone::UTC)
}

/// A seed that no other run has, for drills that name none.
#[must_use]
pub fn fresh_seed() -> u64 {
    // The keys of a fresh RandomState come from the system's randomness. Six digits can
    // be read aloud and typed again.
    RandomState::new().hash_one(now()) % 1_000_000
}

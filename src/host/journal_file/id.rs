//! Names that no other session has.

use std::hash::{BuildHasher, RandomState};

/// A session's id, sorting by its beginning (`now`: ms since 1970). An entry's id is the
/// session's with the number of answers before it in the session behind it.
#[must_use]
pub fn fresh_session(now: u64) -> String {
    // The keys of a fresh RandomState come from the system's randomness.
    let chance = RandomState::new().hash_one(now);
    format!("{now:011x}-{chance:016x}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_sessions_of_one_moment_differ() {
        assert_ne!(fresh_session(5), fresh_session(5));
        assert!(fresh_session(0xfff) < fresh_session(0x1000));
    }
}

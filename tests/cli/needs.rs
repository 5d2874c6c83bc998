//! What tests need and a machine may lack.

/// Says what is missing, so that the test stops; where everything must be tested (`CI=true`)
/// that is a failure.
pub(crate) fn missing(what: &str) {
    let everything = std::env::var_os("CI").is_some_and(|ci| ci == "true");
    assert!(!everything, "{what} missing, and CI tests everything");
    eprintln!("skipped: {what} missing");
}

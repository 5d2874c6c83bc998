//! The form of a table of steps from chord to chord.

/// A chord and where it goes, each step with its weight. A chord that is no row of the table
/// may not be gone to.
pub(super) type Row = (&'static str, &'static [(&'static str, f64)]);

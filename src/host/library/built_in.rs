//! The data files built into the program.

use super::BuiltIn;

/// The exercises, as `exercises/` holds them.
pub const EXERCISES: &[BuiltIn] = &[];

//! The device files that come with the program.

/// Id and text of each built-in device file.
pub(super) const FILES: &[(&str, &str)] = &files!["minor-four",];

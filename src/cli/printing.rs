//! The way to standard output.

use std::io::{self, Write};

use super::failure::Failure;

/// Writes data to standard output.
pub(super) fn print(text: &str) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes())
        .and_then(|()| out.flush())
        .map_err(|error| match error.kind() {
            io::ErrorKind::BrokenPipe => Failure::ClosedPipe,
            _ => Failure::CannotWrite {
                name: "standard output".to_owned(),
                error,
            },
        })
}

//! Starts the command line.

use std::process::ExitCode;

fn main() -> ExitCode {
    plagal::cli::run()
}

//! `plagal completions`: shell completions.

use clap::Args;
use clap_complete::Shell;

use super::context::print;
use super::failure::Failure;

/// Print completions for a shell
#[derive(Debug, Args)]
pub(super) struct Completions {
    /// The shell
    shell: Shell,
}

impl Completions {
    pub(super) fn run(&self, mut command: clap::Command) -> Result<(), Failure> {
        let mut script = Vec::new();
        clap_complete::generate(self.shell, &mut command, "plagal", &mut script);
        print(&String::from_utf8(script).expect("completions are text"))
    }
}

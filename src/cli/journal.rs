//! `plagal journal`: the answers themselves, taken out or forgotten.

use clap::{Args, Subcommand};

use super::context::{Context, print};
use super::failure::Failure;
use crate::document::shown;
use crate::host::journal_file::{forget, scan};
use crate::host::library::{BadFile, Reason};
use crate::journal::{Entry, Line, parse, print as line_of};
use crate::report::{CSV_HEAD, csv_rows};

/// Take answers out of the journal, or have a learner's forgotten
#[derive(Debug, Args)]
pub(super) struct Journal {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Print the answers, as CSV with a row a chord or with --json as JSON Lines
    Export {
        /// Only this learner's
        #[arg(long, value_name = "NAME")]
        learner: Option<String>,
    },
    /// Take a learner's answers out of the journal for good
    Forget {
        #[arg(value_name = "LEARNER")]
        learner: String,
    },
}

impl Journal {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        match &self.what {
            What::Export { learner } => export(learner.as_deref(), context),
            What::Forget { learner } => forget_learner(learner, context),
        }
    }
}

fn export(learner: Option<&str>, context: &Context) -> Result<(), Failure> {
    if !context.json {
        print(CSV_HEAD)?;
    }
    let Some(path) = &context.journal else {
        return Ok(());
    };
    let mut printed = Ok(());
    let mut passed_over = 0;
    scan(path, |_, line| match line.and_then(parse::<Entry>) {
        Ok(Line::Known(entry)) if learner.is_none_or(|name| name == entry.learner) => {
            let text = if context.json {
                line_of(&entry)
            } else {
                csv_rows(&entry)
            };
            if printed.is_ok() {
                printed = print(&text);
            }
        }
        Ok(Line::Known(_)) => {}
        Ok(Line::Newer(_)) | Err(_) => passed_over += 1,
    })
    .map_err(|error| unreadable(path, error))?;
    printed?;
    if passed_over > 0 {
        eprintln!("plagal: {passed_over} lines are of a newer program or damaged, and not printed");
    }
    Ok(())
}

fn forget_learner(learner: &str, context: &Context) -> Result<(), Failure> {
    let forgotten = match &context.journal {
        Some(path) => forget(path, learner).map_err(|why| Failure::CannotWrite {
            name: path.display().to_string(),
            error: std::io::Error::other(why.to_string()),
        })?,
        None => 0,
    };
    if context.json {
        return context.print_json(&serde_json::json!({ "forgotten": forgotten }));
    }
    print(&format!(
        "{forgotten} answered questions of `{}` are forgotten\n",
        shown(learner)
    ))
}

/// A journal that is there and cannot be read.
pub(super) fn unreadable(path: &std::path::Path, error: std::io::Error) -> Failure {
    Failure::BadFiles(vec![BadFile {
        name: path.display().to_string(),
        reason: Reason::Unreadable(error),
    }])
}

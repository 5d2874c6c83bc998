//! `plagal journal`: the answers themselves, taken out or forgotten.

use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use serde::Serialize;
use serde_json::json;

use super::context::{Context, print};
use super::failure::{Failure, Missing};
use super::table::table;
use crate::document::{near, shown};
use crate::host::clock;
use crate::host::journal_file::{MergeError, Merged, WriteError, forget, merge, scan};
use crate::host::library::{BadFile, Reason};
use crate::journal::{Entry, JournalLine, ScoredEntry, parse, print as line_of};
use crate::report::{CSV_HEAD, csv_rows, day};

/// Take answers out of the journal, pour others in, or have a learner's forgotten
#[derive(Debug, Args)]
pub(super) struct Journal {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Print the answers, as CSV with a row a chord or with --json as JSON Lines; where a
    /// learner is named, only theirs
    Export,
    /// List the learners, with their answers and the days of the first and the last
    Learners,
    /// Add the answers of other journals that this one has not got
    Merge {
        #[arg(value_name = "FILE", required = true)]
        files: Vec<PathBuf>,
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
            What::Export => export(context),
            What::Learners => learners(context),
            What::Merge { files } => {
                for file in files {
                    merge_file(file, context)?;
                }
                Ok(())
            }
            What::Forget { learner } => forget_learner(learner, context),
        }
    }
}

fn export(context: &Context) -> Result<(), Failure> {
    let learner = context.learner_is_named.then_some(&context.learner);
    if !context.json {
        print(CSV_HEAD)?;
    }
    let Some(path) = &context.journal else {
        return Ok(());
    };
    let zone = clock::zone();
    let mut printed = Ok(());
    let mut passed_over = 0;
    scan(path, |_, line| match line.and_then(parse::<Entry>) {
        Ok(JournalLine::Known(entry)) if learner.is_none_or(|name| *name == entry.learner) => {
            let text = if context.json {
                line_of(&entry)
            } else {
                csv_rows(&entry, &zone)
            };
            if printed.is_ok() {
                printed = print(&text);
            }
        }
        Ok(JournalLine::Known(_)) => {}
        Ok(JournalLine::Newer(_)) | Err(_) => passed_over += 1,
    })
    .map_err(|error| unreadable(path, error))?;
    printed?;
    if passed_over > 0 {
        eprintln!("plagal: {passed_over} lines are of a newer program or damaged, and not printed");
    }
    Ok(())
}

/// What the journal holds of a learner.
#[derive(Serialize)]
struct Held {
    learner: String,
    answers: u64,
    /// Milliseconds since 1970.
    first: u64,
    last: u64,
}

fn learners(context: &Context) -> Result<(), Failure> {
    let held = held(context)?;
    if context.json {
        return context.print_json(&json!({ "learners": held }));
    }
    let zone = clock::zone();
    let day = |time: u64| day(time, &zone).to_string();
    let mut rows = vec![
        ["learner", "answers", "first", "last"]
            .map(str::to_owned)
            .to_vec(),
    ];
    rows.extend(held.iter().map(|held| {
        vec![
            context.style.safe(&held.learner),
            held.answers.to_string(),
            day(held.first),
            day(held.last),
        ]
    }));
    print(&table(&rows))
}

/// The learners in the order of their names.
fn held(context: &Context) -> Result<Vec<Held>, Failure> {
    let mut learners: BTreeMap<String, Held> = BTreeMap::new();
    let Some(path) = &context.journal else {
        return Ok(Vec::new());
    };
    scan(path, |_, line| {
        let Ok(JournalLine::Known(entry)) = line.and_then(parse::<ScoredEntry>) else {
            return;
        };
        let name = entry.learner.as_str();
        if !learners.contains_key(name) {
            let held = Held {
                learner: name.to_owned(),
                answers: 0,
                first: entry.time,
                last: entry.time,
            };
            learners.insert(name.to_owned(), held);
        }
        let held = learners.get_mut(name).expect("just put in");
        held.answers += 1;
        held.first = held.first.min(entry.time);
        held.last = held.last.max(entry.time);
    })
    .map_err(|error| unreadable(path, error))?;
    Ok(learners.into_values().collect())
}

fn merge_file(file: &Path, context: &Context) -> Result<(), Failure> {
    let Some(journal) = &context.journal else {
        return Err(Failure::CannotWrite {
            name: "the journal".to_owned(),
            error: io::Error::other("the environment names no place for it; see --journal"),
        });
    };
    let Merged {
        added,
        known,
        passed_over,
    } = merge(journal, file).map_err(|refused| match refused {
        MergeError::From(error) => unreadable(file, error),
        MergeError::Into(cause) => cannot_write(journal, &cause),
    })?;
    if added + known == 0 && passed_over > 0 {
        return Err(Failure::Impossible {
            name: file.display().to_string(),
            why: "it holds no answer; expected a journal, or what `plagal journal export --json` \
                  prints"
                .to_owned(),
        });
    }
    if context.json {
        return context.print_json(&json!({
            "file": file.display().to_string(),
            "added": added,
            "known": known,
            "passed_over": passed_over,
        }));
    }
    print(&format!(
        "`{}`: {added} answers added, {known} were there already, {passed_over} lines passed over\n",
        shown(&file.display().to_string())
    ))
}

fn cannot_write(journal: &Path, cause: &WriteError) -> Failure {
    Failure::CannotWrite {
        name: journal.display().to_string(),
        error: io::Error::other(cause.to_string()),
    }
}

fn forget_learner(learner: &str, context: &Context) -> Result<(), Failure> {
    let forgotten = match &context.journal {
        Some(path) => forget(path, learner).map_err(|cause| cannot_write(path, &cause))?,
        None => 0,
    };
    if forgotten == 0 {
        return Err(unknown(learner, context));
    }
    if context.json {
        return context.print_json(&json!({ "forgotten": forgotten }));
    }
    print(&format!(
        "{forgotten} answered questions of `{}` are forgotten\n",
        shown(learner)
    ))
}

/// Nobody of that name has answered anything.
fn unknown(learner: &str, context: &Context) -> Failure {
    let held = held(context).unwrap_or_default();
    let names = held.iter().map(|held| held.learner.as_str());
    Failure::Missing(Missing {
        what: "learner",
        id: learner.to_owned(),
        near: near(learner, names).map(str::to_owned),
        bad: Vec::new(),
    })
}

/// A journal that is there and cannot be read.
pub(super) fn unreadable(path: &Path, error: io::Error) -> Failure {
    Failure::BadFiles(vec![BadFile {
        name: path.display().to_string(),
        reason: Reason::Unreadable(error),
    }])
}

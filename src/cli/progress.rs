//! `plagal progress`: where each device stands, what is confused, when it was practised.

use clap::Args;

use super::context::{Context, print};
use super::failure::Failure;
use super::journal::unreadable;
use super::shelves;
use super::table::table;
use crate::devices::{Catalogue, DeviceId};
use crate::host::clock;
use crate::host::journal_file::{fold_journal, scan};
use crate::journal::{JournalLine, ReportedEntry, parse};
use crate::report::{Facts, History, Progress, Table, day};
use crate::scorer::Scorer;

/// Show where each device stands, what is confused with what, and the days of practice
#[derive(Debug, Args)]
pub(super) struct Standings {
    /// One device's learning curve
    #[arg(value_name = "DEVICE")]
    device: Option<String>,
}

/// How large a curve is drawn.
const CURVE: (usize, usize) = (72, 11);

impl Standings {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        let mut shelf = shelves::devices(context);
        let catalogue = shelves::catalogue(&shelf)?;
        let families = catalogue.devices().iter();
        let mut scorer =
            Scorer::new(families.map(|device| (device.id.clone(), device.family.name())));
        if let Some(path) = &context.journal {
            let folded = fold_journal(path, &context.learner, &mut scorer);
            let folded = folded.map_err(|error| unreadable(path, error))?;
            if let Some((line, fault)) = &folded.first_fault {
                eprintln!(
                    "plagal: {} lines of the journal are passed over, the first line {line}: {fault}",
                    folded.faults
                );
            }
            if folded.newer > 0 {
                eprintln!("plagal: {} answers are of a newer program", folded.newer);
            }
        }
        let progress = Progress::of(&scorer, clock::now());
        if context.json && self.device.is_none() {
            return context.print_json(&progress);
        }
        if let Some(id) = &self.device {
            let id = shelves::find("device", &mut shelf, id)?.id.clone();
            return one(&id, &progress, &catalogue, context);
        }
        let history = history(context)?;
        let name = |id: &DeviceId| name(id, &catalogue);
        print(&page(&progress, &history, &name, context))
    }
}

fn history(context: &Context) -> Result<History, Failure> {
    let mut history = History::default();
    let Some(path) = &context.journal else {
        return Ok(history);
    };
    let zone = clock::zone();
    scan(path, |_, line| {
        if let Ok(JournalLine::Known(entry)) = line.and_then(parse::<ReportedEntry>)
            && entry.learner.as_str() == context.learner
        {
            history.fold(&entry, &zone);
        }
    })
    .map_err(|error| unreadable(path, error))?;
    Ok(history)
}

fn one(
    id: &DeviceId,
    progress: &Progress,
    catalogue: &Catalogue,
    context: &Context,
) -> Result<(), Failure> {
    let device = progress.devices.iter().find(|device| device.id == *id);
    let device = device.expect("the scorer knows the whole catalogue");
    if context.json {
        return context.print_json(device);
    }
    let name = |id: &DeviceId| name(id, catalogue);
    let mut only = progress.clone();
    only.devices.retain(|device| device.id == *id);
    only.confusions.retain(|confused| confused.device == *id);
    let history = history(context)?;
    let facts = facts(&only, &history, &name, context);
    let rows = |report: Table| {
        let rows = report.rows(&facts);
        table(
            &rows
                .iter()
                .map(|row| safe(row, context))
                .collect::<Vec<_>>(),
        )
    };
    let mut text = rows(Table::Standings) + &rows(Table::Confusions);
    match history.curve(id) {
        Some(curve) => {
            let (width, height) = CURVE;
            text += "\nright in every ten answers, with what 95 % of chance allows\n";
            for (row, line) in curve
                .drawn(width, height, context.style.ascii)
                .iter()
                .enumerate()
            {
                text += &format!("{:>5} % {line}\n", 100 - 10 * row);
            }
        }
        None => text += &format!("{} has not been asked yet\n", context.style.safe(&name(id))),
    }
    print(&text)
}

fn name(id: &DeviceId, catalogue: &Catalogue) -> String {
    let device = catalogue.get(id);
    device
        .map_or(id.as_str(), |device| device.name())
        .to_owned()
}

fn page(progress: &Progress, history: &History, name: Name<'_>, context: &Context) -> String {
    let mut text = format!(
        "{} answers, {} of {} devices asked\n",
        progress.answers,
        progress.asked().len(),
        progress.devices.len()
    );
    if progress.answers == 0 {
        return text;
    }
    let facts = facts(progress, history, name, context);
    for report in Table::ALL {
        let rows = report.rows(&facts);
        if !rows.is_empty() {
            let rows = rows.iter().map(|row| safe(row, context));
            let title = context.style.strong(report.title());
            text += &format!("\n{title}\n{}", table(&rows.collect::<Vec<_>>()));
        }
    }
    text
}

/// What a device is called.
type Name<'a> = &'a dyn Fn(&DeviceId) -> String;

fn facts<'a>(
    progress: &'a Progress,
    history: &'a History,
    name: Name<'a>,
    context: &Context,
) -> Facts<'a> {
    Facts {
        progress,
        history,
        today: day(clock::now(), &clock::zone()),
        name,
        signs: if context.style.ascii {
            [".", "-", "+", "*", "#"]
        } else {
            ["·", "░", "▒", "▓", "█"]
        },
    }
}

/// A row whose cells may come from a file.
fn safe(row: &[String], context: &Context) -> Vec<String> {
    row.iter().map(|cell| context.style.safe(cell)).collect()
}

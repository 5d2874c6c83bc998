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
use crate::journal::{Gist, Line, parse};
use crate::report::{History, Map, Progress, Week, confusions, day, standings};
use crate::scorer::Scorer;

/// Show where each device stands, what is confused with what, and the days of practice
#[derive(Debug, Args)]
pub(super) struct Standings {
    /// One device's learning curve
    #[arg(value_name = "DEVICE")]
    device: Option<String>,
}

/// How many weeks and chords are drawn, and how large a curve.
const WEEKS: usize = 12;
const CHORDS: usize = 10;
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
        print(&page(&progress, &history, &catalogue, context))
    }
}

fn history(context: &Context) -> Result<History, Failure> {
    let mut history = History::default();
    let Some(path) = &context.journal else {
        return Ok(history);
    };
    let zone = clock::zone();
    scan(path, |_, line| {
        if let Ok(Line::Known(gist)) = line.and_then(parse::<Gist>)
            && gist.learner.as_str() == context.learner
        {
            history.fold(&gist, &zone);
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
    let name = |id: &DeviceId| name(id, catalogue, context);
    let mut only = progress.clone();
    only.devices.retain(|device| device.id == *id);
    only.confusions.retain(|confused| confused.device == *id);
    let mut text = table(&standings(&only, name)) + &table(&confusions(&only, name));
    match history(context)?.curve(id) {
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
        None => text += &format!("{} has not been asked yet\n", name(id)),
    }
    print(&text)
}

fn name(id: &DeviceId, catalogue: &Catalogue, context: &Context) -> String {
    let name = catalogue
        .get(id)
        .map_or(id.as_str(), |device| device.name());
    context.style.safe(name)
}

fn page(
    progress: &Progress,
    history: &History,
    catalogue: &Catalogue,
    context: &Context,
) -> String {
    let name = |id: &DeviceId| name(id, catalogue, context);
    let strong = |text: &str| context.style.strong(text);
    let asked = progress.devices.iter().filter(|device| device.asked > 0);
    let mut text = format!(
        "{} answers, {} of {} devices asked\n",
        progress.answers,
        asked.count(),
        progress.devices.len()
    );
    if progress.answers == 0 {
        return text;
    }
    text += &format!("\n{}", table(&standings(progress, name)));
    let confused = confusions(progress, name);
    if !confused.is_empty() {
        text += &format!("\n{}\n{}", strong("confused"), table(&confused));
    }
    text += &format!(
        "\n{}\n{}",
        strong("heard as"),
        heat(&history.heat().map(CHORDS), context)
    );
    text + &format!(
        "\n{}\n{}",
        strong("answers by day"),
        weeks(history, context)
    )
}

/// Signs for nothing, little, some, much and most.
fn signs(context: &Context) -> [&'static str; 5] {
    if context.style.ascii {
        [".", "-", "+", "*", "#"]
    } else {
        ["·", "░", "▒", "▓", "█"]
    }
}

/// A row a chord that sounded, a column an answer, numbered alike.
fn heat(map: &Map, context: &Context) -> String {
    let signs = signs(context);
    let rows = map.names.iter().enumerate().map(|(row, name)| {
        let cells: Vec<&str> = (0..map.names.len())
            .map(|column| signs[map.warmth(row, column)])
            .collect();
        vec![
            format!("{:>2}", row + 1),
            context.style.safe(name),
            cells.join(" "),
            asked_times(map.asked[row]),
        ]
    });
    let columns: Vec<String> = (1..=map.names.len())
        .map(|column| (column % 10).to_string())
        .collect();
    let head = vec![String::new(), "sounded".to_owned(), columns.join(" ")];
    table(&std::iter::once(head).chain(rows).collect::<Vec<_>>())
}

fn weeks(history: &History, context: &Context) -> String {
    let signs = signs(context);
    let today = day(clock::now(), &clock::zone());
    let rows = history
        .calendar()
        .weeks(today, WEEKS)
        .into_iter()
        .map(|week| {
            let days = week.answers.map(|answers| signs[Week::warmth(answers)]);
            let sum: u32 = week.answers.iter().sum();
            vec![week.monday.to_string(), days.join(" "), sum.to_string()]
        });
    let head = ["week of", "M T W T F S S", "answers"]
        .map(str::to_owned)
        .to_vec();
    table(&std::iter::once(head).chain(rows).collect::<Vec<_>>())
}

fn asked_times(times: u32) -> String {
    if times == 1 {
        "once".to_owned()
    } else {
        format!("{times} times")
    }
}

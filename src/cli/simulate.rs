//! `plagal simulate`: simulated learners against ways of choosing, or the model of the
//! learner against a log of real answers.

use std::io;
use std::path::{Path, PathBuf};

use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use serde_json::{Value, json};

use super::context::{Context, print};
use super::failure::Failure;
use super::options::whole;
use super::table::table;
use crate::host::library::{BadFile, Reason};
use crate::host::regular;
use crate::trial::{Cell, Interval, Part, Plan, Policy, Replay, World, WorldResult};
use crate::trial::{replay, simulate};

/// Set simulated learners before the scorer and before simpler ways of choosing
#[derive(Debug, Args)]
pub(super) struct Simulate {
    /// Learners in each world
    #[arg(long, value_name = "N", default_value_t = 300, allow_negative_numbers = true, value_parser = whole(2..=100_000_u32))]
    learners: u32,
    #[arg(long, value_name = "N", default_value_t = 1, allow_negative_numbers = true, value_parser = whole(0..=u64::MAX))]
    seed: u64,
    /// Only these worlds
    #[arg(long, value_name = "ID", num_args = 1.., value_parser = worlds())]
    world: Vec<World>,
    /// Only these ways of choosing
    #[arg(long, value_name = "ID", num_args = 1.., value_parser = policies())]
    policy: Vec<Policy>,
    /// Predict a log of real answers instead: a head line, then learner, item, 0 or 1
    #[arg(long, value_name = "CSV", conflicts_with_all = ["world", "policy", "learners"])]
    answers: Option<PathBuf>,
    /// How many answers were on offer in the log
    #[arg(
        long,
        value_name = "N",
        default_value_t = 2,
        requires = "answers",
        allow_negative_numbers = true,
        value_parser = whole(2..=u32::MAX)
    )]
    offered: u32,
}

fn worlds() -> impl TypedValueParser<Value = World> {
    PossibleValuesParser::new(World::ALL.map(World::id)).map(|id| {
        let found = World::ALL.into_iter().find(|world| world.id() == id);
        found.expect("the parser lets only these ids pass")
    })
}

fn policies() -> impl TypedValueParser<Value = Policy> {
    PossibleValuesParser::new(Policy::ALL.map(Policy::id)).map(|id| {
        let found = Policy::ALL.into_iter().find(|policy| policy.id() == id);
        found.expect("the parser lets only these ids pass")
    })
}

impl Simulate {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        if let Some(path) = &self.answers {
            return self.replay(path, context);
        }
        let chosen = |given: &[World]| match given {
            [] => World::ALL.to_vec(),
            some => some.to_vec(),
        };
        let plan = Plan {
            learners: self.learners,
            seed: self.seed,
            worlds: chosen(&self.world),
            policies: match self.policy.as_slice() {
                [] => Policy::ALL.to_vec(),
                some => some.to_vec(),
            },
            ..Plan::default()
        };
        if context.json {
            let worlds: Vec<Value> = simulate(&plan, |_| ()).iter().map(world).collect();
            return context.print_json(&json!({ "learners": plan.learners, "worlds": worlds }));
        }
        // A world takes seconds; what is done is shown.
        let mut told = Ok(());
        simulate(&plan, |result| {
            if told.is_ok() {
                told = print(&rows(result));
            }
        });
        told
    }

    fn replay(&self, path: &Path, context: &Context) -> Result<(), Failure> {
        let name = path.display().to_string();
        let log = regular::open(path)
            .and_then(io::read_to_string)
            .map_err(|error| {
                Failure::BadFiles(vec![BadFile {
                    name: name.clone(),
                    reason: Reason::Unreadable(error),
                }])
            })?;
        let impossible = |why: String| Failure::Impossible {
            name: name.clone(),
            why,
        };
        let parts = [("all", Part::All), ("odd", Part::Odd), ("even", Part::Even)];
        let mut found = Vec::new();
        for (label, part) in parts {
            let part = replay(&log, self.offered, part);
            found.push((label, part.map_err(|error| impossible(error.to_string()))?));
        }
        if context.json {
            let parts: Vec<Value> = found.iter().map(|(id, part)| log_part(id, part)).collect();
            return context.print_json(&json!({ "answers": parts }));
        }
        let head = [
            "learners",
            "answers",
            "log-loss",
            "of counting",
            "less",
            "calibration",
        ];
        let mut lines = vec![
            std::iter::once("part")
                .chain(head)
                .map(str::to_owned)
                .collect(),
        ];
        for (label, part) in &found {
            lines.push(vec![
                (*label).to_owned(),
                part.learners.to_string(),
                part.answers.to_string(),
                format!("{:.4}", part.scorer.log_loss()),
                format!("{:.4}", part.counting.log_loss()),
                format!("{:.2} %", 100.0 * less(part)),
                format!("{:.3}", part.scorer.calibration()),
            ]);
        }
        print(&table(&lines))
    }
}

/// By which part the scorer's log-loss lies below that of counting.
fn less(part: &Replay) -> f64 {
    1.0 - part.scorer.log_loss() / part.counting.log_loss()
}

fn log_part(id: &str, part: &Replay) -> Value {
    json!({
        "id": id,
        "learners": part.learners,
        "answers": part.answers,
        "log_loss": part.scorer.log_loss(),
        "counting_log_loss": part.counting.log_loss(),
        "less": less(part),
        "calibration": part.scorer.calibration(),
    })
}

fn world(result: &WorldResult) -> Value {
    let policies: Vec<Value> = result.cells.iter().map(policy).collect();
    json!({ "id": result.world.id(), "policies": policies })
}

fn policy(cell: &Cell) -> Value {
    let interval = |interval: Interval| json!([interval.low, interval.high]);
    json!({
        "id": cell.policy.id(),
        "success": cell.success,
        "delayed": cell.delayed.mean,
        "low": cell.delayed.low,
        "high": cell.delayed.high,
        "against_bag": cell.against_bag.mean,
        "against_bag_interval": interval(cell.against_bag),
        "weakest_quarter": cell.weakest_quarter.mean,
        "weakest_quarter_interval": interval(cell.weakest_quarter),
        "to_mastery": cell.to_mastery,
        "to_mastery_interval": [cell.to_mastery_low, cell.to_mastery_high],
        "censored": cell.censored,
        "log_loss": cell.log_loss,
        "brier": cell.brier,
        "calibration": cell.calibration,
        "error": cell.error,
        "coverage": cell.verdicts.coverage(),
        "power": cell.verdicts.power(),
        "false_secure": cell.verdicts.false_secure(),
        "false_weak": cell.verdicts.false_weak(),
        "found_weak": cell.verdicts.found_weak(),
    })
}

fn rows(result: &WorldResult) -> String {
    let head = [
        result.world.id(),
        "delayed success",
        "less the bag's",
        "weakest quarter",
        "questions to mastery",
        "never",
        "log-loss",
        "calibration",
        "error",
        "covered",
        "secure of good",
        "of poor",
        "weak of fair",
        "of poor",
    ];
    let mut lines = vec![head.map(str::to_owned).to_vec()];
    for cell in &result.cells {
        lines.push(vec![
            cell.policy.id().to_owned(),
            format!(
                "{:.3} ({:.3} to {:.3})",
                cell.delayed.mean, cell.delayed.low, cell.delayed.high
            ),
            format!(
                "{:+.4} ({:+.4} to {:+.4})",
                cell.against_bag.mean, cell.against_bag.low, cell.against_bag.high
            ),
            format!("{:.3}", cell.weakest_quarter.mean),
            format!(
                "{:.0} ({:.0} to {:.0})",
                cell.to_mastery, cell.to_mastery_low, cell.to_mastery_high
            ),
            format!("{:.0} %", 100.0 * cell.censored),
            format!("{:.4}", cell.log_loss),
            format!("{:.3}", cell.calibration),
            format!("{:.3}", cell.error),
            format!("{:.3}", cell.verdicts.coverage()),
            format!("{:.0} %", 100.0 * cell.verdicts.power()),
            format!("{:.1} %", 100.0 * cell.verdicts.false_secure()),
            format!("{:.1} %", 100.0 * cell.verdicts.false_weak()),
            format!("{:.0} %", 100.0 * cell.verdicts.found_weak()),
        ]);
    }
    table(&lines) + "\n"
}

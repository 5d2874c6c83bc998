//! `plagal` and `plagal drill`: the trainer, full screen or line by line.

use std::io;

use clap::Args;

use super::context::Context;
use super::failure::Failure;
use super::options::whole;
use super::plain;
use super::practising::{Practising, end, start, watch_ends};
use crate::practice::Start;
use crate::tui::{self, Setup, Theme};

/// Begin a drill
#[derive(Debug, Args)]
pub(super) struct DrillArguments {
    /// An exercise's id or file; without one, what is due
    exercise: Option<String>,
    /// The same seed asks the same questions of the same devices
    #[arg(long, value_name = "N", allow_negative_numbers = true, value_parser = whole(0..=u64::MAX))]
    seed: Option<u64>,
    /// How many questions
    #[arg(long, value_name = "N", allow_negative_numbers = true, value_parser = whole(1..=500_u32))]
    questions: Option<u32>,
    /// Line by line, without the full screen; answers on standard input
    #[arg(long)]
    plain: bool,
}

impl DrillArguments {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        let is_plain = self.plain || context.json;
        // The full screen lists them all when the drill is over.
        let only = self.exercise.as_deref().filter(|_| is_plain);
        let practising = Practising::open(context, only)?;
        let exercise = practising.exercise(self.exercise.as_deref(), context)?;
        let start = start(&exercise, self.questions, self.seed, context);
        if is_plain {
            plain::drill(practising, &exercise, start, context)
        } else {
            full_screen(practising, Some(start), context)
        }
    }
}

/// Opens the trainer on its home screen.
pub(super) fn trainer(context: &Context) -> Result<(), Failure> {
    full_screen(Practising::open(context, None)?, None, context)
}

fn full_screen(
    practising: Practising,
    begin: Option<Start>,
    context: &Context,
) -> Result<(), Failure> {
    let Practising {
        practice,
        exercises,
        told,
    } = practising;
    let theme = Theme {
        colour: context.style.color,
        ascii: context.style.ascii,
    };
    let setup = Setup {
        practice,
        exercises,
        theme,
        six: context.bare_six,
        begin,
        learner: context
            .learner_is_named
            .then(|| context.style.safe(&context.learner)),
        told,
    };
    let signals = watch_ends()?;
    let (outcome, practice) = tui::run(setup, &signals);
    let outcome = outcome.map_err(|error| terminal_failure(&error));
    end(practice, &signals, outcome)
}

fn terminal_failure(error: &io::Error) -> Failure {
    let hint = "expected a terminal; `plagal drill --plain` works without one";
    Failure::CannotWrite {
        name: "the terminal".to_owned(),
        error: io::Error::new(error.kind(), format!("{error}; {hint}")),
    }
}

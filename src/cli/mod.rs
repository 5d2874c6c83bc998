//! The command line: arguments, one file a command, error rendering, exit codes. Owns
//! every word printed outside the full-screen trainer; knows no rules of music.

mod audit;
mod batch;
mod check;
mod completions;
mod context;
mod devices;
mod drill;
mod exercises;
mod failure;
mod file_format;
mod journal;
mod line_arguments;
mod manual;
mod options;
mod outputs;
mod plain;
mod plain_marks;
mod plain_question;
mod plain_reply;
mod plain_words;
mod play;
mod practising;
mod printing;
mod progress;
mod question;
mod render;
mod render_error;
mod shelves;
mod simulate;
mod sounding;
mod sounds;
mod spell;
mod style;
mod table;
mod textures;

use std::ffi::OsString;
use std::io::Write;
use std::process::ExitCode;

use clap::{CommandFactory, Parser, Subcommand};

use context::Context;
use failure::Failure;
use options::Options;

use crate::host::signals::die_of;

/// Trains the ear to hear what each chord does in its key
#[derive(Debug, Parser)]
#[command(name = "plagal", version, max_term_width = 100)]
struct Arguments {
    #[command(flatten)]
    options: Options,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Debug, Subcommand)]
enum Command {
    Audit(audit::AuditArguments),
    Check(check::Check),
    Completions(completions::Completions),
    Devices(devices::Devices),
    Drill(drill::DrillArguments),
    Exercises(exercises::Exercises),
    Journal(journal::Journal),
    Manual(manual::Manual),
    Outputs(outputs::Outputs),
    Play(play::Play),
    Progress(progress::Standings),
    Question(question::Questions),
    Render(render::Render),
    Simulate(simulate::Simulate),
    Sounds(sounds::Sounds),
    Spell(spell::Spell),
    Textures(textures::Textures),
}

/// Runs the command that the process's arguments name.
#[must_use]
pub fn run() -> ExitCode {
    let telling = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        // A panic of the sound library is told as a fault by whoever asked for sound.
        if std::thread::current().name() != Some("sound") {
            telling(panic);
        }
    }));
    let arguments: Vec<OsString> = std::env::args_os().collect();
    match Arguments::try_parse_from(&arguments) {
        Ok(parsed) => finish(&parsed.options, execute(&parsed)),
        Err(error) => {
            let options = Options::guessed(&arguments);
            finish(&options, options::usage(&error, &options))
        }
    }
}

fn execute(arguments: &Arguments) -> Result<(), Failure> {
    // Read only where it is needed: a broken settings file must not stop an installation.
    let context = || Context::new(&arguments.options);
    let Some(command) = &arguments.command else {
        return drill::trainer(&context()?);
    };
    match command {
        Command::Audit(command) => command.run(&context()?),
        Command::Check(command) => command.run(&context()?),
        Command::Completions(command) => command.run(Arguments::command()),
        Command::Devices(command) => command.run(&context()?),
        Command::Drill(command) => command.run(&context()?),
        Command::Exercises(_) => exercises::Exercises::run(&context()?),
        Command::Journal(command) => command.run(&context()?),
        Command::Manual(_) => manual::Manual::run(Arguments::command()),
        Command::Outputs(_) => outputs::Outputs::run(&context()?),
        Command::Play(command) => command.run(&context()?),
        Command::Progress(command) => command.run(&context()?),
        Command::Question(command) => command.run(&context()?),
        Command::Render(command) => command.run(&context()?),
        Command::Simulate(command) => command.run(&context()?),
        Command::Sounds(_) => sounds::Sounds::run(&context()?),
        Command::Spell(command) => command.run(&context()?),
        Command::Textures(_) => textures::Textures::run(&context()?),
    }
}

/// Tells the failure, if any, and turns it into the exit code.
fn finish(options: &Options, outcome: Result<(), Failure>) -> ExitCode {
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            let style = options.style(&std::io::stderr());
            failure.tell(options.json, style);
            if let Failure::Ended { signal, .. } = failure {
                // As if it had not been noted: who waits for the program learns what ended it.
                let _ = std::io::stdout().flush();
                die_of(signal);
            }
            ExitCode::from(failure.exit_code())
        }
    }
}

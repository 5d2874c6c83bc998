//! `plagal manual`: one manual page for the program and all its commands.

use clap::Args;
use clap_mangen::Man;
use clap_mangen::roff::{Inline, Roff, bold, italic, roman};

use super::context::print;
use super::failure::Failure;

/// Print the manual page, for `man -l -`
#[derive(Debug, Args)]
pub(super) struct Manual {}

impl Manual {
    pub(super) fn run(mut command: clap::Command) -> Result<(), Failure> {
        command.build();
        let mut page = Vec::new();
        let man = Man::new(command.clone()).manual("plagal manual");
        let complete = man
            .render_title(&mut page)
            .and_then(|()| man.render_name_section(&mut page))
            .and_then(|()| man.render_synopsis_section(&mut page))
            .and_then(|()| man.render_description_section(&mut page))
            .and_then(|()| man.render_options_section(&mut page))
            .and_then(|()| commands(&command).to_writer(&mut page))
            .and_then(|()| closing().to_writer(&mut page));
        complete.expect("writing to memory cannot fail");
        print(&String::from_utf8(page).expect("a manual page is text"))
    }
}

/// What each command does, with the arguments that are its own.
fn commands(command: &clap::Command) -> Roff {
    let mut roff = Roff::new();
    roff.control("SH", ["COMMANDS"]);
    describe(command, "plagal", &mut roff);
    roff
}

/// The commands under one that is called so, and those under them.
fn describe(command: &clap::Command, name: &str, roff: &mut Roff) {
    let subcommands = command.get_subcommands();
    for sub in subcommands.filter(|sub| sub.get_name() != "help") {
        let name = format!("{name} {}", sub.get_name());
        roff.control("SS", [name.as_str()]);
        let about = sub.get_about().map(ToString::to_string).unwrap_or_default();
        roff.text([roman(about)]);
        for argument in sub.get_arguments() {
            if argument.is_global_set() || argument.get_id() == "help" {
                continue;
            }
            roff.control("TP", []);
            roff.text(heading(argument));
            let help = argument
                .get_help()
                .map(ToString::to_string)
                .unwrap_or_default();
            roff.text([roman(help)]);
        }
        describe(sub, &name, roff);
    }
}

/// `--name VALUE`, or `VALUE`.
fn heading(argument: &clap::Arg) -> Vec<Inline> {
    let mut parts = Vec::new();
    if let Some(short) = argument.get_short() {
        parts.push(bold(format!("-{short}")));
        parts.push(roman(if argument.get_long().is_some() {
            ", "
        } else {
            " "
        }));
    }
    if let Some(long) = argument.get_long() {
        parts.push(bold(format!("--{long}")));
        parts.push(roman(" "));
    }
    if argument.get_action().takes_values() {
        let names = argument.get_value_names().unwrap_or_default();
        let names: Vec<&str> = names.iter().map(clap::builder::Str::as_str).collect();
        parts.push(italic(names.join(" ")));
    }
    parts
}

const EXIT_CODES: [(&str, &str); 9] = [
    ("0", "done"),
    ("1", "a check found something"),
    ("2", "the arguments make no command"),
    ("65", "the data is bad"),
    ("66", "there is no such input"),
    ("69", "there is no sound device where one is indispensable"),
    ("73", "the output cannot be written"),
    (
        "130",
        "interrupted; after another signal 128 and its number",
    ),
    ("101", "a fault of the program itself"),
];

const FILES: [(&str, &str); 2] = [
    (
        "$XDG_CONFIG_HOME/plagal/",
        "settings.json and the folders exercises, sounds, kits and devices with your own \
         files; a file there replaces a built-in one of the same id",
    ),
    (
        "$XDG_DATA_HOME/plagal/journal.jsonl",
        "every answer you gave",
    ),
];

fn closing() -> Roff {
    let mut roff = Roff::new();
    let mut table = |title: &str, rows: &[(&str, &str)]| {
        roff.control("SH", [title]);
        for (term, meaning) in rows {
            roff.control("TP", []);
            roff.text([bold(*term)]);
            roff.text([roman(*meaning)]);
        }
    };
    table("EXIT STATUS", &EXIT_CODES);
    table("FILES", &FILES);
    roff.control("SH", ["CAUTION"]);
    roff.text([roman(
        "Loud sound harms hearing. Start with the volume low, above all with headphones, \
         and rest your ears between drills.",
    )]);
    roff
}

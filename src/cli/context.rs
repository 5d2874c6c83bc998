//! What every command is given, and its way to standard output.

use std::io::{self, Write};
use std::path::PathBuf;

use serde::Serialize;

use super::failure::Failure;
use super::options::Options;
use super::style::Style;
use crate::host::directories;
use crate::host::settings::{Audio, Layer};

/// The settled options.
#[derive(Debug)]
pub(super) struct Context {
    pub json: bool,
    /// The look of standard output.
    pub style: Style,
    /// The look of standard error.
    pub error_style: Style,
    pub home: Option<PathBuf>,
    pub journal: Option<PathBuf>,
    pub audio: Audio,
}

impl Context {
    /// Settles flags, environment, settings file and defaults.
    pub(super) fn new(options: &Options) -> Result<Self, Failure> {
        let variable = |name: &str| std::env::var_os(name);
        let home = options.home.clone().or_else(|| directories::home(variable));
        let file = home.as_deref().map_or(Ok(Layer::default()), Layer::of_home);
        let layer = options
            .layer()
            .over(file.map_err(|bad| Failure::BadFiles(vec![bad]))?);
        let color = layer.color.unwrap_or_default();
        let ascii = layer.ascii.unwrap_or(false);
        Ok(Self {
            json: options.json,
            style: Style::new(color, ascii, &io::stdout()),
            error_style: Style::new(color, ascii, &io::stderr()),
            home,
            journal: layer.journal.or_else(|| directories::journal(variable)),
            audio: layer.audio.unwrap_or_default(),
        })
    }

    /// Prints a value as one line of JSON.
    pub(super) fn print_json(&self, value: &impl Serialize) -> Result<(), Failure> {
        let mut line = serde_json::to_string(value).expect("our own values have a JSON form");
        line.push('\n');
        print(&line)
    }
}

/// Writes data to standard output.
pub(super) fn print(text: &str) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes())
        .and_then(|()| out.flush())
        .map_err(|error| match error.kind() {
            io::ErrorKind::BrokenPipe => Failure::ClosedPipe,
            _ => Failure::CannotWrite {
                name: "standard output".to_owned(),
                error,
            },
        })
}

//! Options that stand on every command, and what their misuse prints.

use std::ffi::OsString;
use std::fmt::Display;
use std::io::IsTerminal;
use std::ops::RangeInclusive;
use std::path::PathBuf;
use std::str::FromStr;

use clap::builder::{FalseyValueParser, PossibleValuesParser, TypedValueParser};
use clap::error::ErrorKind;

use super::failure::Failure;
use super::printing::print;
use super::style::Style;
use crate::host::player::BufferSize;
use crate::host::settings::{Audio, Color, LEARNER, Layer, learner_name};

/// Options everywhere
#[derive(Clone, Debug, Default, clap::Args)]
#[command(next_help_heading = "Options everywhere")]
pub(super) struct Options {
    /// Print one JSON object a line, errors included
    #[arg(long, global = true)]
    pub json: bool,
    /// Print ASCII alone: b # o in place of ♭ ♯ °
    #[arg(long, global = true, env = "PLAGAL_ASCII", value_parser = FalseyValueParser::new(), hide_env_values = true)]
    pub ascii: bool,
    /// When to colour; `auto` also heeds NO_COLOR
    #[arg(long, global = true, value_name = "WHEN", env = "PLAGAL_COLOR", value_parser = words(Color::WORDS), hide_env_values = true)]
    pub color: Option<Color>,
    /// The file that keeps every answer
    #[arg(
        long,
        global = true,
        value_name = "FILE",
        env = "PLAGAL_JOURNAL",
        hide_env_values = true
    )]
    pub journal: Option<PathBuf>,
    /// Whose answers to keep and to look at, where several share a journal
    #[arg(long, global = true, value_name = "NAME", env = "PLAGAL_LEARNER", value_parser = learner, hide_env_values = true)]
    pub learner: Option<String>,
    /// Whether to open a sound device
    #[arg(long, global = true, value_name = "HOW", env = "PLAGAL_AUDIO", value_parser = words(Audio::WORDS), hide_env_values = true)]
    pub audio: Option<Audio>,
    /// The sound device; `plagal outputs` lists them
    #[arg(
        long,
        global = true,
        value_name = "ID",
        env = "PLAGAL_AUDIO_OUTPUT",
        hide_env_values = true
    )]
    pub audio_output: Option<String>,
    /// Frames in a block of sound: fewer are heard sooner, more break up less
    #[arg(long, global = true, value_name = "FRAMES", env = "PLAGAL_AUDIO_BUFFER", value_parser = words(BUFFERS), hide_env_values = true)]
    pub audio_buffer: Option<BufferSize>,
    /// The folder of your exercises, sounds, devices and settings
    #[arg(
        long,
        global = true,
        value_name = "DIR",
        env = "PLAGAL_HOME",
        hide_env_values = true
    )]
    pub home: Option<PathBuf>,
}

fn learner(name: &str) -> Result<String, String> {
    learner_name(name).ok_or_else(|| format!("expected {LEARNER}"))
}

const BUFFERS: &[(&str, BufferSize)] = &[
    ("512", BufferSize::Frames512),
    ("1024", BufferSize::Frames1024),
    ("2048", BufferSize::Frames2048),
    ("4096", BufferSize::Frames4096),
];

/// Reads one of a closed set of words.
pub(super) fn words<T: Copy + Send + Sync + 'static>(
    words: &'static [(&'static str, T)],
) -> impl TypedValueParser<Value = T> {
    PossibleValuesParser::new(words.iter().map(|(word, _)| *word)).map(|chosen| {
        let found = words.iter().find(|(word, _)| *word == chosen);
        found.expect("the parser lets only these words pass").1
    })
}

/// Reads a whole number within a range.
pub(super) fn whole<T>(
    range: RangeInclusive<T>,
) -> impl Fn(&str) -> Result<T, String> + Clone + Send + Sync + 'static
where
    T: FromStr + PartialOrd + Display + Clone + Send + Sync + 'static,
{
    move |text| {
        let number = text.parse().ok().filter(|number| range.contains(number));
        let (from, to) = (range.start(), range.end());
        number.ok_or_else(|| format!("expected a whole number from {from} to {to}"))
    }
}

impl Options {
    /// The look of an output stream, by flags and environment alone.
    pub(super) fn style(&self, stream: &impl IsTerminal) -> Style {
        let layer = self.layer();
        Style::new(
            layer.color.unwrap_or_default(),
            layer.ascii.unwrap_or(false),
            stream,
        )
    }

    /// The layer of flags and environment.
    pub(super) fn layer(&self) -> Layer {
        Layer {
            ascii: self.ascii.then_some(true),
            color: self.color.or_else(no_color),
            audio: self.audio,
            output: self.audio_output.clone(),
            buffer: self.audio_buffer,
            journal: self.journal.clone(),
            learner: self.learner.clone(),
            ..Layer::default()
        }
    }

    /// What can be told of the options of a command line that cannot be read.
    pub(super) fn guessed(arguments: &[OsString]) -> Self {
        let has = |option: &str| arguments.iter().any(|argument| argument == option);
        let color = |word: &str| {
            let pair = ["--color".as_ref(), std::ffi::OsStr::new(word)];
            has(&format!("--color={word}")) || arguments.windows(2).any(|two| two == pair)
        };
        let chosen = Color::WORDS.iter().find(|(word, _)| color(word));
        Self {
            json: has("--json"),
            ascii: has("--ascii"),
            color: chosen.map(|(_, color)| *color),
            ..Self::default()
        }
    }
}

/// What `NO_COLOR` asks for (no-color.org: present and not empty).
fn no_color() -> Option<Color> {
    let asked = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    asked.then_some(Color::Never)
}

/// Prints the help or version that was asked for, or fails with the misuse.
pub(super) fn usage(error: &clap::Error, options: &Options) -> Result<(), Failure> {
    let text = error.render();
    match error.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => {
            let colored = options.style(&std::io::stdout()).color;
            let text = if colored {
                text.ansi().to_string()
            } else {
                text.to_string()
            };
            print(&text)
        }
        _ => Err(Failure::Usage(text.to_string())),
    }
}

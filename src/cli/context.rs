//! What every command is given, and its way to standard output.

use std::io;
use std::path::PathBuf;

use serde::Serialize;

pub(super) use super::printing::print;

use super::failure::Failure;
use super::options::Options;
use super::style::Style;
use crate::host::directories;
use crate::host::player;
use crate::host::settings::Layer;
use crate::theory::{BareSix, Notation, TICKS_PER_BEAT, Ticks};

/// The name of the learner when only one uses the program.
const LEARNER: &str = "pupil";

/// Concert pitch by ISO 16, in hertz.
const A4: f64 = 440.0;

/// The settled options.
#[derive(Debug)]
pub(super) struct Context {
    pub json: bool,
    /// The look of standard output.
    pub style: Style,
    /// The look of standard error.
    pub error_style: Style,
    /// The folder of the user's files.
    pub home: Option<PathBuf>,
    /// Where answers are kept; nowhere if the environment names no place.
    pub journal: Option<PathBuf>,
    /// Whose answers are kept and looked at.
    pub learner: String,
    /// Whether someone said whose.
    pub learner_is_named: bool,
    /// How to open the sound device.
    pub player: player::Settings,
    /// The frequency of A4 in hertz.
    pub tuning: f64,
    /// The percussion of a band, by its id; the built-in one if none is chosen.
    pub kit: Option<String>,
    /// How a bare `6` after a numeral is read.
    pub bare_six: BareSix,
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
            player: layer.player(),
            tuning: layer.tuning.unwrap_or(A4),
            kit: layer.kit,
            learner_is_named: layer.learner.is_some(),
            learner: layer.learner.unwrap_or_else(|| LEARNER.to_owned()),
            journal: layer.journal.or_else(|| directories::journal(variable)),
            bare_six: layer.bare_six.unwrap_or_default(),
        })
    }

    /// The notation for people.
    pub(super) fn notation(&self) -> Notation {
        if self.style.ascii {
            Notation::Ascii
        } else {
            Notation::Screen
        }
    }

    /// The notation for other programs.
    pub(super) fn data_notation(&self) -> Notation {
        if self.style.ascii {
            Notation::Ascii
        } else {
            Notation::Text
        }
    }

    /// Prints a value as one line of JSON.
    pub(super) fn print_json(&self, value: &impl Serialize) -> Result<(), Failure> {
        let mut line = serde_json::to_string(value).expect("our own values have a JSON form");
        line.push('\n');
        print(&line)
    }
}

/// A length in beats, whole where it can be.
pub(super) fn beats(length: Ticks) -> serde_json::Number {
    if length.is_multiple_of(TICKS_PER_BEAT) {
        return (length / TICKS_PER_BEAT).into();
    }
    let beats = f64::from(length) / f64::from(TICKS_PER_BEAT);
    serde_json::Number::from_f64(beats).expect("a length is finite")
}

//! `plagal render`: a line as a file.

use std::path::PathBuf;

use clap::Args;
use serde_json::json;

use super::batch::Batch;
use super::context::Context;
use super::failure::Failure;
use super::file_format::{Existing, Format, wav, write_whole};
use super::options::{whole, words};
use super::sounding::{SoundedLine, SoundingArguments};
use crate::arranging::Setting;
use crate::host::midi::midi;
use crate::host::musicxml::musicxml;

/// Sound numerals, or the questions of an exercise, into files
#[derive(Debug, Args)]
#[command(
    mut_arg("line", |arg| arg.required(false).required_unless_present("exercise")),
    mut_arg("key", |arg| arg.required(false).required_unless_present("exercise"))
)]
pub(super) struct Render {
    #[command(flatten)]
    sounding: SoundingArguments,
    /// The file to write; its ending chooses the format: .wav, .mid or .musicxml. With
    /// --exercise the folder to write into
    #[arg(short, long, value_name = "FILE")]
    output: PathBuf,
    /// Overwrite files that are there already
    #[arg(long)]
    force: bool,
    /// Write the questions of this exercise, a file each, as a drill sounds them
    #[arg(long, value_name = "ID", conflicts_with_all = ["line", "key", "meter", "tempo", "sound", "texture", "only"])]
    exercise: Option<String>,
    /// How many questions, 1 if it is left out; goes with --exercise
    #[arg(long, value_name = "K", allow_negative_numbers = true, value_parser = whole(1..=10_000_u32))]
    count: Option<u32>,
    /// What the files are: the question as it sounds, which is the default, or its line as
    /// notes; goes with --exercise
    #[arg(long, value_name = "FORMAT", value_parser = words(Format::WORDS))]
    format: Option<Format>,
    /// Frames a second of a .wav file
    #[arg(long, value_name = "HERTZ", default_value_t = 48_000, allow_negative_numbers = true, value_parser = whole(8_000..=192_000_u32))]
    rate: u32,
}

impl Render {
    fn existing(&self) -> Existing {
        if self.force {
            Existing::Overwrite
        } else {
            Existing::Keep
        }
    }

    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        if let Some(exercise) = &self.exercise {
            let batch = Batch {
                exercise,
                count: self.count.unwrap_or(1),
                seed: self.sounding.seed(),
                format: self.format.unwrap_or(Format::Wav),
                rate: self.rate,
                tuning: self.sounding.tuning(context),
                kit: self.sounding.kit(context)?,
                existing: self.existing(),
            };
            return batch.write(&self.output, context);
        }
        if self.count.is_some() || self.format.is_some() {
            let message = "error: --count and --format go with --exercise\n";
            return Err(Failure::Usage(message.to_owned()));
        }
        let format = Format::of(&self.output)?;
        let sounding = self.sounding.read(context)?;
        let bytes = match format {
            Format::Wav => self.wav(&sounding),
            Format::Midi => midi(&sounding.passage, &sounding.line.line, sounding.line.key),
            Format::MusicXml => score(&sounding).into_bytes(),
        };
        write_whole(&self.output, &bytes, self.existing()).map_err(|error| {
            Failure::CannotWrite {
                name: self.output.display().to_string(),
                error,
            }
        })?;
        if context.json {
            let passage = &sounding.passage;
            return context.print_json(&json!({
                "file": self.output.display().to_string(),
                "bytes": bytes.len(),
                "notes": passage.notes.len(),
                "seconds": passage.seconds(passage.length),
            }));
        }
        Ok(())
    }

    fn wav(&self, sounding: &SoundedLine) -> Vec<u8> {
        wav(&sounding.samples(self.rate))
    }
}

fn score(sounding: &SoundedLine) -> String {
    let line = &sounding.line;
    let setting = Setting::new(&line.line, line.key, sounding.seed)
        .expect("a line whose chords have notes can be set");
    musicxml(&line.line, line.key, &setting, sounding.passage.tempo)
}

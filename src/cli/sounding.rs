//! The line that `play` and `render` sound, and how.

use clap::Args;

use super::context::Context;
use super::failure::{Failure, Missing};
use super::line_arguments::{KeyedLine, LineArguments};
use super::options::{whole, words};
use super::shelves;
use crate::arranging::{Arrangement, Passage, Strand, Texture, arrange};
use crate::document::near;
use crate::synth::{self, Band, Kit, REFERENCE, Samples, Sound};

#[derive(Debug, Args)]
pub(super) struct SoundingArguments {
    #[command(flatten)]
    line: LineArguments,
    /// Quarter notes a minute
    #[arg(long, value_name = "BPM", default_value_t = 96, allow_negative_numbers = true, value_parser = whole(30..=300_u16))]
    tempo: u16,
    /// The instrument; `plagal sounds` lists them
    #[arg(long, value_name = "ID")]
    sound: Option<String>,
    /// How the line is laid out; `plagal textures` lists the ways
    #[arg(long, value_name = "ID")]
    texture: Option<String>,
    /// Another number gives another layout of the same line, as good
    #[arg(long, value_name = "N", default_value_t = 0)]
    seed: u64,
    /// One of the lines alone
    #[arg(long, value_name = "STRAND", value_parser = words(STRANDS))]
    only: Option<Strand>,
    /// The percussion of a band; `plagal sounds` lists it
    #[arg(long, value_name = "ID")]
    kit: Option<String>,
    /// The frequency of A4
    #[arg(long, value_name = "HERTZ", value_parser = tuning)]
    tuning: Option<f64>,
}

const STRANDS: &[(&str, Strand)] = &[
    ("bass", Strand::Bass),
    ("inner", Strand::Inner),
    ("top", Strand::Top),
    ("percussion", Strand::Percussion),
];

/// Reads a reference tuning.
pub(super) fn tuning(text: &str) -> Result<f64, String> {
    let hertz = text.parse().ok().filter(|hertz| REFERENCE.contains(hertz));
    hertz.ok_or_else(|| {
        let (lowest, highest) = (REFERENCE.start(), REFERENCE.end());
        format!("expected {lowest} to {highest} hertz")
    })
}

impl SoundingArguments {
    /// Chooses the small differences between attacks, or the questions of an exercise.
    pub(super) fn seed(&self) -> u64 {
        self.seed
    }

    /// The percussion, by flag or settings.
    pub(super) fn kit(&self, context: &Context) -> Result<Kit, Failure> {
        let chosen = self.kit.as_deref().or(context.kit.as_deref());
        shelves::kit(&mut shelves::kits(context), chosen).cloned()
    }

    /// The frequency of A4 in hertz, by flag or settings.
    pub(super) fn tuning(&self, context: &Context) -> f64 {
        self.tuning.unwrap_or(context.tuning)
    }
}

/// A line laid out, and the instrument for it.
#[derive(Debug)]
pub(super) struct SoundedLine {
    pub line: KeyedLine,
    pub passage: Passage,
    pub sound: Sound,
    pub kit: Kit,
    /// The frequency of A4 in hertz.
    pub tuning: f64,
    /// Chooses the small differences between attacks.
    pub seed: u64,
}

impl SoundingArguments {
    pub(super) fn read(&self, context: &Context) -> Result<SoundedLine, Failure> {
        let line = self.line.read(context)?;
        let request = Arrangement {
            texture: self.texture()?,
            tempo: f32::from(self.tempo),
            variation: self.seed,
        };
        let passage = arrange(&line.line, line.key, &request)
            .expect("a line whose chords have notes can be arranged");
        let passage = match self.only {
            Some(strand) => passage.strand(strand),
            None => passage,
        };
        Ok(SoundedLine {
            line,
            passage,
            sound: self.sound(context)?,
            kit: self.kit(context)?,
            tuning: self.tuning(context),
            seed: self.seed,
        })
    }

    fn texture(&self) -> Result<Texture, Failure> {
        let Some(id) = &self.texture else {
            return Ok(Texture::HeldChords);
        };
        id.parse().map_err(|_| {
            let ids = Texture::ALL.map(Texture::id);
            Failure::Missing(Missing {
                what: "texture",
                id: id.clone(),
                near: near(id, ids).map(str::to_owned),
                bad: Vec::new(),
            })
        })
    }

    fn sound(&self, context: &Context) -> Result<Sound, Failure> {
        let mut shelf = shelves::sounds(context);
        let id = self.sound.as_deref();
        let id = id.unwrap_or(synth::built_in()[0].id.as_str());
        shelves::find("sound", &mut shelf, id).cloned()
    }
}

impl SoundedLine {
    /// Renders it at `rate` frames a second.
    pub(super) fn samples(&self, rate: u32) -> Samples {
        let settings = synth::Settings {
            rate,
            seed: self.seed,
            a4: self.tuning,
            ..synth::Settings::default()
        };
        let band = Band::for_passage(&self.sound, &self.passage).with_kit(&self.kit);
        synth::render_band(&self.passage, &band, &settings)
    }
}

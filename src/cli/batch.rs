//! `plagal render --exercise`: the questions of a drill, a file each.

use std::fs;
use std::path::Path;

use super::context::{Context, print};
use super::failure::Failure;
use super::file_format::{Existing, Format, wav, write_whole};
use super::practising::exercise;
use super::question::{object, refusal};
use super::shelves;
use crate::arranging::Setting;
use crate::host::midi::midi;
use crate::host::musicxml::musicxml;
use crate::practice::PAUSE;
use crate::quiz::{Drill, Hearing, NoQuestion, Part, Programme, Question, from_bag, question_seed};
use crate::synth::{self, Band, Kit, Samples, Sound};

/// Which questions to write, and how.
pub(super) struct Batch<'a> {
    /// An exercise's id or file.
    pub(super) exercise: &'a str,
    pub(super) count: u32,
    /// The seed of the drill.
    pub(super) seed: u64,
    pub(super) format: Format,
    /// Frames a second.
    pub(super) rate: u32,
    /// The frequency of A4 in hertz.
    pub(super) tuning: f64,
    /// The percussion of a band.
    pub(super) kit: Kit,
    pub(super) existing: Existing,
}

/// Seconds in which a part fades where the next one begins.
const FADE: f64 = 0.008;

impl Batch<'_> {
    /// Writes into `folder`, which is made if need be. Each file is written whole or not at
    /// all; after a failure those before it are there.
    pub(super) fn write(&self, folder: &Path, context: &Context) -> Result<(), Failure> {
        let catalogue = shelves::catalogue(&shelves::devices(context))?;
        let drill = exercise(self.exercise, &catalogue, context)?.drill(context.bare_six);
        let sounds = shelves::sounds(context);
        fs::create_dir_all(folder).map_err(|error| cannot_write(folder, error))?;
        for index in 0..self.count {
            let refused = |error: NoQuestion| refusal(self.exercise, &error);
            let device = from_bag(&drill, self.seed, index);
            let seed = question_seed(self.seed, index);
            let question = Question::new(&drill, &catalogue, device, seed).map_err(refused)?;
            let sound = sounds.find(&question.sound);
            let sound = sound.unwrap_or(&synth::built_in()[0]);
            let bytes = self.bytes(&question, sound).map_err(refused)?;
            let file = folder.join(self.name(&drill, index));
            write_whole(&file, &bytes, self.existing)
                .map_err(|error| cannot_write(&file, error))?;
            let name = file.display().to_string();
            if context.json {
                let mut told = object(&drill, &question, self.seed, index, context);
                told["file"] = name.into();
                context.print_json(&told)?;
            } else {
                print(&format!("{}\n", context.style.safe(&name)))?;
            }
        }
        Ok(())
    }

    fn name(&self, drill: &Drill, index: u32) -> String {
        let (id, seed) = (&drill.exercise, self.seed);
        let words = Format::WORDS.iter();
        let ending = words.filter(|(_, format)| *format == self.format);
        let ending: String = ending.map(|(word, _)| *word).collect();
        format!("{id}-{seed}-{:04}.{ending}", index + 1)
    }

    fn bytes(&self, question: &Question, sound: &Sound) -> Result<Vec<u8>, NoQuestion> {
        let programme = |hearing, open| {
            let made = question.programme(&hearing, open);
            made.map_err(NoQuestion::TooRemote)
        };
        let (line, key) = (&question.progression.line, question.key());
        Ok(match self.format {
            Format::Wav => {
                let programme = programme(Hearing::Question, true)?;
                wav(&self.samples(&programme, sound))
            }
            Format::Midi => {
                let programme = programme(Hearing::Line, false)?;
                midi(&programme.parts[0].passage, line, key)
            }
            Format::MusicXml => {
                let setting = Setting::new(line, key, question.seed);
                let setting = setting.map_err(NoQuestion::TooRemote)?;
                musicxml(line, key, &setting, f32::from(question.tempo)).into_bytes()
            }
        })
    }

    /// The parts one after another, as the drill plays them.
    fn samples(&self, programme: &Programme, sound: &Sound) -> Samples {
        let settings = synth::Settings {
            rate: self.rate,
            a4: self.tuning,
            ..synth::Settings::default()
        };
        let mut all = Vec::new();
        for (number, part) in programme.parts.iter().enumerate() {
            let band = Band::for_passage(sound, &part.passage).with_kit(&self.kit);
            let mut own = synth::render_band(&part.passage, &band, &settings).interleaved;
            if number + 1 < programme.parts.len() {
                self.cut(part, &mut own);
            }
            all.append(&mut own);
        }
        Samples {
            rate: self.rate,
            interleaved: all,
        }
    }

    /// Ends a part where the next one begins, with a fade.
    fn cut(&self, part: &Part, samples: &mut Vec<f32>) {
        let frames = |seconds: f64| (seconds * f64::from(self.rate)) as usize;
        let end = frames(part.passage.seconds(part.passage.length) + PAUSE);
        samples.resize(2 * end, 0.0);
        let fade = frames(FADE).clamp(1, end.max(1));
        for (frame, pair) in samples
            .chunks_exact_mut(2)
            .enumerate()
            .skip(end - fade.min(end))
        {
            let gain = (end - frame) as f32 / fade as f32;
            pair.iter_mut().for_each(|value| *value *= gain);
        }
    }
}

fn cannot_write(path: &Path, error: std::io::Error) -> Failure {
    Failure::CannotWrite {
        name: path.display().to_string(),
        error,
    }
}

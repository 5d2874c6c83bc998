//! `plagal spell`: from numerals to chord symbols and notes.

use clap::Args;
use serde::Serialize;

use super::context::{Context, beats, print};
use super::failure::Failure;
use super::line_arguments::{KeyedLine, LineArguments};
use super::shelves;
use super::table::table;
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::{ChordInContext, Progression};
use crate::theory::Notation;

/// Spell numerals as chord symbols and notes
#[derive(Debug, Args)]
pub(super) struct Spell {
    #[command(flatten)]
    arguments: LineArguments,
}

#[derive(Serialize)]
struct Spelled {
    key: String,
    chords: Vec<SpelledChord>,
}

#[derive(Serialize)]
struct SpelledChord {
    numeral: String,
    symbol: String,
    root: String,
    bass: String,
    notes: Vec<String>,
    bar: u32,
    beats: serde_json::Number,
    function: String,
    devices: Vec<DeviceId>,
}

impl Spell {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        let line = self.arguments.read(context)?;
        let catalogue = shelves::catalogue(&shelves::devices(context))?;
        if context.json {
            return context.print_json(&spelled(line, &catalogue, context.data_notation()));
        }
        let spelled = spelled(line, &catalogue, context.notation());
        let heading = [
            "bar", "beats", "numeral", "symbol", "notes", "function", "devices",
        ];
        let mut rows = vec![heading.map(str::to_owned).to_vec()];
        rows.extend(spelled.chords.into_iter().map(|chord| {
            vec![
                format!("{:>3}", chord.bar),
                format!("{:>5}", chord.beats.to_string()),
                chord.numeral,
                chord.symbol,
                chord.notes.join(" "),
                chord.function,
                joined(&chord.devices),
            ]
        }));
        print(&format!("{}\n{}", spelled.key, table(&rows)))
    }
}

fn joined(devices: &[DeviceId]) -> String {
    let devices: Vec<&str> = devices.iter().map(DeviceId::as_str).collect();
    devices.join(", ")
}

fn spelled(keyed: KeyedLine, catalogue: &Catalogue, notation: Notation) -> Spelled {
    let KeyedLine { line, key, chords } = keyed;
    let functions: Vec<String> = (0..line.slots().len())
        .map(|slot| ChordInContext::of(&line, slot, key.mode()).function(notation))
        .collect();
    let progression = Progression::new(key, line, catalogue);
    let line = &progression.line;
    let places = line.slots().iter().zip(&chords).zip(functions).enumerate();
    let chords = places.map(|(index, ((slot, chord), function))| SpelledChord {
        numeral: slot.numeral.written(notation),
        symbol: chord.written(notation),
        root: chord.root().written(notation),
        bass: chord.bass().written(notation),
        notes: chord
            .notes()
            .iter()
            .map(|note| note.written(notation))
            .collect(),
        bar: line.bar(index),
        beats: beats(slot.length),
        function,
        devices: progression.devices_at(index).cloned().collect(),
    });
    Spelled {
        key: key.written(notation),
        chords: chords.collect(),
    }
}

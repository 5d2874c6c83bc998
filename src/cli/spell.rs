//! `plagal spell`: from numerals to chord symbols and notes.

use clap::Args;
use serde::Serialize;

use super::context::{Context, beats, print};
use super::failure::Failure;
use super::line_arguments::{KeyedLine, LineArguments};
use super::table::table;
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
}

impl Spell {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        let line = self.arguments.read(context)?;
        if context.json {
            return context.print_json(&spelled(&line, context.data_notation()));
        }
        let spelled = spelled(&line, context.notation());
        let heading = ["bar", "beats", "numeral", "symbol", "notes"];
        let mut rows = vec![heading.map(str::to_owned).to_vec()];
        rows.extend(spelled.chords.into_iter().map(|chord| {
            vec![
                format!("{:>3}", chord.bar),
                format!("{:>5}", chord.beats.to_string()),
                chord.numeral,
                chord.symbol,
                chord.notes.join(" "),
            ]
        }));
        print(&format!("{}\n{}", spelled.key, table(&rows)))
    }
}

fn spelled(keyed: &KeyedLine, notation: Notation) -> Spelled {
    let slots = keyed.line.slots().iter().zip(&keyed.chords).enumerate();
    let chords = slots.map(|(index, (slot, chord))| SpelledChord {
        numeral: slot.numeral.written(notation),
        symbol: chord.written(notation),
        root: chord.root().written(notation),
        bass: chord.bass().written(notation),
        notes: chord
            .notes()
            .iter()
            .map(|note| note.written(notation))
            .collect(),
        bar: keyed.line.bar(index),
        beats: beats(slot.length),
    });
    Spelled {
        key: keyed.key.written(notation),
        chords: chords.collect(),
    }
}

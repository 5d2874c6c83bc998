//! `plagal sounds`: the instruments.

use clap::Args;
use serde::Serialize;

use super::context::{Context, print};
use super::failure::Failure;
use super::shelves;
use super::table::table;
use crate::synth::Sound;

/// List the sounds
#[derive(Debug, Args)]
pub(super) struct Sounds {}

#[derive(Serialize)]
struct Listed<'s> {
    id: &'s str,
    title: &'s str,
    about: &'s str,
    /// The lowest and the highest playable note.
    range: [String; 2],
}

impl Sounds {
    pub(super) fn run(context: &Context) -> Result<(), Failure> {
        let shelf = shelves::sounds(context);
        let sounds = shelf.things.iter().map(|known| &known.thing);
        if context.json {
            let sounds: Vec<Listed<'_>> = sounds.map(listed).collect();
            context.print_json(&serde_json::json!({ "sounds": sounds }))?;
        } else {
            let rows = sounds.map(|sound| {
                let [lowest, highest] = listed(sound).range;
                vec![
                    sound.id.clone(),
                    context.style.safe(&sound.title),
                    format!("{lowest} to {highest}"),
                    context.style.safe(&sound.about),
                ]
            });
            print(&table(&rows.collect::<Vec<_>>()))?;
        }
        shelves::finish(shelf)
    }
}

fn listed(sound: &Sound) -> Listed<'_> {
    Listed {
        id: &sound.id,
        title: &sound.title,
        about: &sound.about,
        range: [sound.range.0.to_string(), sound.range.1.to_string()],
    }
}

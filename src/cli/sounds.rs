//! `plagal sounds`: the instruments.

use clap::Args;
use serde::Serialize;

use super::context::{Context, print};
use super::failure::Failure;
use super::shelves;
use super::table::table;
use crate::synth::{Kit, Sound};

/// List the sounds and the percussion of a band
#[derive(Debug, Args)]
pub(super) struct Sounds {}

#[derive(Serialize)]
struct ListedSound<'s> {
    id: &'s str,
    title: &'s str,
    about: &'s str,
    /// The lowest and the highest playable note.
    range: [String; 2],
}

impl Sounds {
    pub(super) fn run(context: &Context) -> Result<(), Failure> {
        let mut shelf = shelves::sounds(context);
        let kits = shelves::kits(context);
        shelf.bad.extend(kits.bad);
        let sounds = shelf.things.iter().map(|known| &known.thing);
        let drums = kits.things.iter().map(|known| &known.thing);
        if context.json {
            let sounds: Vec<ListedSound<'_>> = sounds.map(listed).collect();
            let kits: Vec<Drums<'_>> = drums.map(drums_listed).collect();
            context.print_json(&serde_json::json!({ "sounds": sounds, "kits": kits }))?;
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
            let percussion = drums.map(|kit| {
                vec![
                    kit.id.clone(),
                    context.style.safe(&kit.title),
                    "percussion".to_owned(),
                    context.style.safe(&kit.about),
                ]
            });
            print(&table(&rows.chain(percussion).collect::<Vec<_>>()))?;
        }
        shelves::finish(shelf)
    }
}

#[derive(Serialize)]
struct Drums<'s> {
    id: &'s str,
    title: &'s str,
    about: &'s str,
}

fn drums_listed(kit: &Kit) -> Drums<'_> {
    Drums {
        id: &kit.id,
        title: &kit.title,
        about: &kit.about,
    }
}

fn listed(sound: &Sound) -> ListedSound<'_> {
    ListedSound {
        id: &sound.id,
        title: &sound.title,
        about: &sound.about,
        range: [sound.range.0.to_string(), sound.range.1.to_string()],
    }
}

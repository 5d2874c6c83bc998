//! `plagal textures`: the ways to lay out a line.

use clap::Args;
use serde::Serialize;

use super::context::{Context, print};
use super::failure::Failure;
use super::table::table;
use crate::arranging::Texture;

/// List the textures
#[derive(Debug, Args)]
pub(super) struct Textures {}

#[derive(Serialize)]
struct Listed {
    id: &'static str,
    title: &'static str,
    about: &'static str,
}

impl Textures {
    pub(super) fn run(context: &Context) -> Result<(), Failure> {
        let textures = Texture::ALL.map(|texture| {
            let card = texture.card();
            Listed {
                id: card.id,
                title: card.title,
                about: card.about,
            }
        });
        if context.json {
            return context.print_json(&serde_json::json!({ "textures": textures.as_slice() }));
        }
        let rows = textures.map(|texture| {
            [texture.id, texture.title, texture.about]
                .map(str::to_owned)
                .to_vec()
        });
        print(&table(&rows))
    }
}

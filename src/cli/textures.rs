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
struct ListedTexture {
    id: &'static str,
    title: &'static str,
    about: &'static str,
    /// How much harder it makes a chord to hear, 0 to 1.
    difficulty: f32,
    /// Whether bass and telling notes come within each chord's first beat.
    fair: bool,
    /// The slowest and the fastest tempo that suit it.
    tempo: [u16; 2],
}

impl Textures {
    pub(super) fn run(context: &Context) -> Result<(), Failure> {
        let textures = Texture::ALL.map(|texture| {
            let card = texture.card();
            ListedTexture {
                id: card.id,
                title: card.title,
                about: card.about,
                difficulty: card.difficulty,
                fair: card.fair,
                tempo: [card.tempos.0, card.tempos.1],
            }
        });
        if context.json {
            return context.print_json(&serde_json::json!({ "textures": textures.as_slice() }));
        }
        let rows = textures.map(|texture| {
            let [slowest, fastest] = texture.tempo;
            vec![
                texture.id.to_owned(),
                texture.title.to_owned(),
                format!("{slowest} to {fastest} beats a minute"),
                texture.about.to_owned(),
            ]
        });
        print(&table(&rows))
    }
}

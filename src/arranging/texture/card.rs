//! What is known of a texture, and what it works from.

use super::touch::Touch;
use crate::arranging::manner::Manner;
use crate::arranging::setting::Setting;

/// What is known of a texture.
#[derive(Clone, Copy, Debug)]
pub struct Card {
    /// The name in files and commands.
    pub id: &'static str,
    /// The name on screen.
    pub title: &'static str,
    /// One sentence for a list.
    pub about: &'static str,
    /// How much harder it makes a chord to hear: 0 plain, 1 hardest.
    pub difficulty: f32,
    /// Whether the bass and the telling notes of each chord are stated within its first beat.
    pub fair: bool,
    /// The slowest and the fastest tempo that suit it, in quarter notes a minute: common
    /// practice of the styles.
    pub tempos: (u16, u16),
    /// Whether the bass is a player of its own.
    pub bassist: bool,
    /// How its chords are taken.
    pub manner: Manner,
    pub(super) lay: fn(&Scene, &mut Touch),
}

/// What a texture works from.
pub(super) struct Scene<'a> {
    pub(super) setting: &'a Setting,
    /// Quarter notes a minute.
    pub(super) tempo: f32,
}

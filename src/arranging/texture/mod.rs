//! Textures: how a setting is laid out in time. One file each, one line in each table here.

mod ballad;
mod band;
mod bossa;
mod broken_chords;
mod card;
mod four_parts;
mod four_to_the_bar;
mod guitar;
mod held_chords;
mod part;
mod shell_voicings;
mod stride;
mod touch;
mod two_feel;
mod walking_bass;

use std::fmt;
use std::str::FromStr;

use super::manner::Manner;
use super::passage::Note;
use super::setting::Setting;
use crate::theory::NameError;
use touch::Touch;

pub use card::Card;
use card::Scene;

/// How a passage is laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Texture {
    /// Chords held for as long as they last.
    HeldChords,
    /// A chord on every beat.
    FourToTheBar,
    /// The notes of a chord one after the other.
    BrokenChords,
    /// Root, third and seventh, as a pianist's left hand has them.
    ShellVoicings,
    /// Chords that a guitar can hold.
    Guitar,
    /// Four voices, as in a chorale.
    FourParts,
    /// A bass on every other beat.
    TwoFeel,
    /// The syncopated pattern of the bossa nova.
    Bossa,
    /// Slow, the chord spread.
    Ballad,
    /// Bass and chord by turns.
    Stride,
    /// A bass that walks in quarter notes.
    WalkingBass,
    /// Bass, chords and drums.
    Band,
    /// The same at twice the pace.
    BandDoubleTime,
    /// The same under a melody.
    BandWithMelody,
}

impl Texture {
    /// All textures, in the order in which they are listed.
    pub const ALL: [Self; 14] = [
        Self::HeldChords,
        Self::FourToTheBar,
        Self::BrokenChords,
        Self::ShellVoicings,
        Self::Guitar,
        Self::FourParts,
        Self::TwoFeel,
        Self::Bossa,
        Self::Ballad,
        Self::Stride,
        Self::WalkingBass,
        Self::Band,
        Self::BandDoubleTime,
        Self::BandWithMelody,
    ];

    /// What is known of it: name, tempos, players.
    #[must_use]
    pub fn card(self) -> &'static Card {
        match self {
            Self::HeldChords => &held_chords::CARD,
            Self::FourToTheBar => &four_to_the_bar::CARD,
            Self::BrokenChords => &broken_chords::CARD,
            Self::ShellVoicings => &shell_voicings::CARD,
            Self::Guitar => &guitar::CARD,
            Self::FourParts => &four_parts::CARD,
            Self::TwoFeel => &two_feel::CARD,
            Self::Bossa => &bossa::CARD,
            Self::Ballad => &ballad::CARD,
            Self::Stride => &stride::CARD,
            Self::WalkingBass => &walking_bass::CARD,
            Self::Band => &band::PLAIN,
            Self::BandDoubleTime => &band::DOUBLE_TIME,
            Self::BandWithMelody => &band::WITH_MELODY,
        }
    }

    /// The id that exercises name it by.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.card().id
    }

    /// Whether players would take a tempo, in quarter notes a minute, in this texture.
    #[must_use]
    pub fn suits(self, tempo: u16) -> bool {
        let (slowest, fastest) = self.card().tempos;
        (slowest..=fastest).contains(&tempo)
    }

    /// The notes of a setting in this texture, in time order.
    pub(super) fn lay(self, setting: &Setting, tempo: f32, variation: u64) -> Vec<Note> {
        let mut touch = Touch::new(variation);
        (self.card().lay)(&Scene { setting, tempo }, &mut touch);
        touch.into_notes()
    }
}

impl fmt::Display for Texture {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id())
    }
}

impl FromStr for Texture {
    type Err = NameError;

    fn from_str(text: &str) -> Result<Self, NameError> {
        Self::ALL
            .into_iter()
            .find(|texture| texture.id() == text)
            .ok_or_else(|| NameError::none_of(text, "a texture", Self::ALL.map(Self::id)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn textures_are_found_by_their_ids() {
        for texture in Texture::ALL {
            assert_eq!(texture.to_string().parse(), Ok(texture));
            let card = texture.card();
            assert!((0.0..=1.0).contains(&card.difficulty), "{texture}");
            let (slowest, fastest) = card.tempos;
            assert!(30 <= slowest && 2 * slowest < fastest && fastest <= 300);
            assert!(
                !card.title.is_empty() && !card.about.is_empty(),
                "{texture}"
            );
        }
        let refused = "held".parse::<Texture>().map_err(|error| error.to_string());
        let expected = "`held` is not a texture; expected one of `held-chords`, `four-to-the-bar`,";
        assert!(refused.is_err_and(|said| said.starts_with(expected)));
    }
}

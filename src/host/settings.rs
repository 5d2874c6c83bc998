//! Settings in layers: flags, environment, the user's settings file, defaults.

use std::path::{Path, PathBuf};

use unicode_normalization::UnicodeNormalization as _;

use super::library::{self, BadFile};
use super::player::{self, BufferSize, Choice, Level};
use crate::document::{
    self, Faults, Object, Value, flag, is_invisible, number, one_of, text, whole,
};
use crate::synth::REFERENCE;
use crate::theory::BareSix;

/// The settings file inside the home.
pub const FILE: &str = "settings.json";

/// When to colour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Color {
    /// On a terminal.
    #[default]
    Auto,
    /// Wherever output goes.
    Always,
    /// Nowhere.
    Never,
}

impl Color {
    /// The words for it in files and commands.
    pub const WORDS: &[(&str, Self)] = &[
        ("auto", Self::Auto),
        ("always", Self::Always),
        ("never", Self::Never),
    ];
}

/// Whether to open a sound device.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Audio {
    /// If there is one.
    #[default]
    Auto,
    /// Never.
    Off,
}

impl Audio {
    /// The words for it in files and commands.
    pub const WORDS: &[(&str, Self)] = &[("auto", Self::Auto), ("off", Self::Off)];
}

/// The words for [`BareSix`] in the settings file.
const BARE_SIX: &[(&str, BareSix)] = &[
    ("added-sixth", BareSix::AddedSixth),
    ("first-inversion", BareSix::FirstInversion),
];

/// One layer of settings; what it leaves open, the next layer decides.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Layer {
    /// Whether only ASCII signs are used.
    pub ascii: Option<bool>,
    /// When to colour.
    pub color: Option<Color>,
    /// Whether to open a sound device.
    pub audio: Option<Audio>,
    /// The sound device, by the id that the system gives it.
    pub output: Option<String>,
    /// Frames in a block of sound.
    pub buffer: Option<BufferSize>,
    /// How loud to play.
    pub level: Option<Level>,
    /// Where answers are kept.
    pub journal: Option<PathBuf>,
    /// Whose answers are kept and looked at.
    pub learner: Option<String>,
    /// The frequency of A4 in hertz.
    pub tuning: Option<f64>,
    /// The percussion of a band, by the id of its file.
    pub kit: Option<String>,
    /// How a bare `6` after a numeral is read.
    pub bare_six: Option<BareSix>,
}

impl Layer {
    /// This layer over `lower`.
    #[must_use]
    pub fn over(self, lower: Self) -> Self {
        Self {
            ascii: self.ascii.or(lower.ascii),
            color: self.color.or(lower.color),
            audio: self.audio.or(lower.audio),
            output: self.output.or(lower.output),
            buffer: self.buffer.or(lower.buffer),
            level: self.level.or(lower.level),
            journal: self.journal.or(lower.journal),
            tuning: self.tuning.or(lower.tuning),
            kit: self.kit.or(lower.kit),
            learner: self.learner.or(lower.learner),
            bare_six: self.bare_six.or(lower.bare_six),
        }
    }

    /// How to open the sound device by these settings and the defaults.
    #[must_use]
    pub fn player(&self) -> player::Settings {
        let choice = match (self.audio.unwrap_or_default(), &self.output) {
            (Audio::Off, _) => Choice::Off,
            (Audio::Auto, None) => Choice::Default,
            (Audio::Auto, Some(id)) => {
                let Ok(choice) = id.parse();
                choice
            }
        };
        player::Settings {
            choice,
            buffer: self.buffer.unwrap_or_default(),
            level: self.level.unwrap_or_default(),
        }
    }

    /// The layer of the home's settings file; empty if there is no such file.
    ///
    /// # Errors
    ///
    /// The file cannot be read, or has faults.
    pub fn of_home(home: &Path) -> Result<Self, BadFile> {
        let path = home.join(FILE);
        if !path.exists() {
            return Ok(Self::default());
        }
        let mut layer = library::read_file(&path, |text| document::read(text, read))?;
        layer.journal = layer.journal.map(|journal| home.join(untilded(journal)));
        Ok(layer)
    }
}

/// A path as a shell would read it: `~` before it is the user's own folder.
fn untilded(path: PathBuf) -> PathBuf {
    match (path.strip_prefix("~"), std::env::home_dir()) {
        (Ok(rest), Some(home)) => home.join(rest),
        (Ok(_), None) | (Err(_), _) => path,
    }
}

/// Reads a settings file.
pub fn read(value: &Value, faults: &mut Faults) -> Option<Layer> {
    let mut fields = Object::of(value, faults)?;
    fields.optional("format", whole(1..=1));
    let layer = Layer {
        ascii: fields.optional("ascii", flag),
        color: fields.optional("color", one_of(Color::WORDS)),
        audio: fields.optional("audio", one_of(Audio::WORDS)),
        output: fields.optional("output", text(1..=200)),
        buffer: fields.optional("buffer", buffer),
        level: fields.optional("level", number(-60.0..=0.0)).map(level),
        journal: fields
            .optional("journal", text(1..=4096))
            .map(PathBuf::from),
        learner: fields.optional("learner", learner),
        tuning: fields.optional("tuning", number(REFERENCE)),
        kit: fields.optional("kit", text(1..=64)),
        bare_six: fields.optional("bare_six", one_of(BARE_SIX)),
    };
    fields.finish();
    Some(layer)
}

/// What a learner's name may be, in words.
pub const LEARNER: &str = "a name of 1 to 60 characters, all of them visible";

/// A learner's name as it goes into the journal and onto the screen, composed as Unicode
/// says (UAX 15, NFC), so that what looks alike is one name; nothing if nobody may be
/// called so.
#[must_use]
pub fn learner_name(name: &str) -> Option<String> {
    let name: String = name.nfc().collect();
    let is_long_enough = (1..=60).contains(&name.chars().count());
    let is_visible = !name.chars().any(is_invisible) && name.trim() == name;
    (is_long_enough && is_visible).then_some(name)
}

fn learner(value: &Value, faults: &mut Faults) -> Option<String> {
    let name = value.as_text().and_then(learner_name);
    name.or_else(|| value.expected(LEARNER, faults))
}

/// One of the sizes on offer.
fn buffer(value: &Value, faults: &mut Faults) -> Option<BufferSize> {
    let frames = whole(1..=u32::MAX)(value, faults)?;
    let found = BufferSize::ALL
        .into_iter()
        .find(|size| size.frames() == frames);
    found.or_else(|| value.expected("512, 1024, 2048 or 4096 frames", faults))
}

fn level(decibels: f64) -> Level {
    Level::from_decibels(decibels as f32)
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::{Audio, Color, Layer, read};
    use crate::document;
    use crate::host::player::{BufferSize, Level};
    use crate::theory::BareSix;

    fn layer(text: &str) -> Layer {
        document::read(text, read).expect("it has no faults")
    }

    #[test]
    fn the_upper_layer_wins_field_by_field() {
        let flags = layer(r#"{"color": "never"}"#);
        let file = layer(
            r#"{"color": "always", "audio": "off", "level": -20, "journal": "j", "tuning": 442, "kit": "wires",
              "output": "alsa:hw", "buffer": 2048, "bare_six": "first-inversion"}"#,
        );
        let expected = Layer {
            color: Some(Color::Never),
            audio: Some(Audio::Off),
            level: Some(Level::from_decibels(-20.0)),
            journal: Some(PathBuf::from("j")),
            tuning: Some(442.0),
            kit: Some("wires".to_owned()),
            output: Some("alsa:hw".to_owned()),
            buffer: Some(BufferSize::Frames2048),
            bare_six: Some(BareSix::FirstInversion),
            ..Layer::default()
        };
        assert_eq!(flags.over(file), expected);
    }

    #[test]
    fn a_settings_file_with_faults_is_refused() {
        let faults = document::read(
            r#"{"colour": "never", "audio": "on", "buffer": 1000, "level": 3, "tuning": 460}"#,
            read,
        );
        let messages: Vec<String> = faults
            .expect_err("it has faults")
            .iter()
            .map(ToString::to_string)
            .collect();
        assert_eq!(
            messages,
            [
                "`colour` is not a field here; did you mean `color`?",
                "`audio` is `on`; expected `auto` or `off`",
                "`buffer` is `1000`; expected 512, 1024, 2048 or 4096 frames",
                "`level` is `3`; expected a number from -60 to 0",
                "`tuning` is `460`; expected a number from 430 to 450",
            ]
        );
    }
}

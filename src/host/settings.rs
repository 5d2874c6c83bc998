//! Settings in layers: flags, environment, the user's settings file, defaults.

use std::path::{Path, PathBuf};

use super::library::{self, BadFile};
use crate::document::{self, Faults, Object, Value, flag, one_of, text, whole};
use crate::theory::BareSix;

/// The settings file inside the home.
pub const FILE: &str = "settings.json";

/// When to colour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Color {
    /// On a terminal.
    #[default]
    Auto,
    Always,
    Never,
}

impl Color {
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
    Off,
}

impl Audio {
    pub const WORDS: &[(&str, Self)] = &[("auto", Self::Auto), ("off", Self::Off)];
}

/// The words for [`BareSix`] in the settings file.
const BARE_SIX: &[(&str, BareSix)] = &[
    ("added-sixth", BareSix::AddedSixth),
    ("first-inversion", BareSix::FirstInversion),
];

/// One layer of settings; what it leaves open, the next layer decides.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Layer {
    pub ascii: Option<bool>,
    pub color: Option<Color>,
    pub audio: Option<Audio>,
    pub journal: Option<PathBuf>,
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
            journal: self.journal.or(lower.journal),
            bare_six: self.bare_six.or(lower.bare_six),
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
        layer.journal = layer.journal.map(|journal| home.join(journal));
        Ok(layer)
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
        journal: fields
            .optional("journal", text(1..=4096))
            .map(PathBuf::from),
        bare_six: fields.optional("bare_six", one_of(BARE_SIX)),
    };
    fields.finish();
    Some(layer)
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::{Audio, Color, Layer, read};
    use crate::document;
    use crate::theory::BareSix;

    fn layer(text: &str) -> Layer {
        document::read(text, read).expect("it has no faults")
    }

    #[test]
    fn the_upper_layer_wins_field_by_field() {
        let flags = layer(r#"{"color": "never"}"#);
        let file = layer(
            r#"{"color": "always", "audio": "off", "journal": "j", "bare_six": "first-inversion"}"#,
        );
        let expected = Layer {
            ascii: None,
            color: Some(Color::Never),
            audio: Some(Audio::Off),
            journal: Some(PathBuf::from("j")),
            bare_six: Some(BareSix::FirstInversion),
        };
        assert_eq!(flags.over(file), expected);
    }

    #[test]
    fn a_settings_file_with_faults_is_refused() {
        let faults = document::read(r#"{"colour": "never", "audio": "on"}"#, read);
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
            ]
        );
    }
}

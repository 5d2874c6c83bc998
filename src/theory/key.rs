//! Major and minor keys.

use std::fmt;
use std::str::FromStr;

use super::degree::Degree;
use super::notation::Notation;
use super::pitch::PitchClass;
use super::quoted::quoted;

/// Major or minor; minor has the degrees of all its scales.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Mode {
    /// With a major third.
    Major,
    /// With a minor third.
    Minor,
}

impl Mode {
    /// `major` or `minor`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Major => "major",
            Self::Minor => "minor",
        }
    }
}

impl fmt::Display for Mode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A key with at most seven sharps or flats in its signature.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Key {
    tonic: PitchClass,
    mode: Mode,
}

impl Key {
    /// C major.
    pub const C_MAJOR: Self = Self {
        tonic: PitchClass::C,
        mode: Mode::Major,
    };

    /// The key on `tonic`, or nothing if its signature would need a double accidental.
    #[must_use]
    pub fn new(tonic: PitchClass, mode: Mode) -> Option<Self> {
        let key = Self { tonic, mode };
        (key.signature().abs() <= 7).then_some(key)
    }

    /// The tonic, spelled.
    #[must_use]
    pub fn tonic(self) -> PitchClass {
        self.tonic
    }

    /// The mode.
    #[must_use]
    pub fn mode(self) -> Mode {
        self.mode
    }

    /// Sharps (positive) or flats (negative) in the signature.
    #[must_use]
    pub fn signature(self) -> i16 {
        match self.mode {
            Mode::Major => self.tonic.fifths(),
            Mode::Minor => self.tonic.fifths() - 3,
        }
    }

    /// The note on a degree.
    #[must_use]
    pub fn note(self, degree: Degree) -> PitchClass {
        self.tonic.up(degree.interval())
    }

    /// The degree that a note is.
    #[must_use]
    pub fn degree(self, note: PitchClass) -> Degree {
        Degree::at(note.above(self.tonic))
    }

    /// Whether a degree stands in the signature's scale; in minor also the raised
    /// seventh, which every dominant of the mode has.
    #[must_use]
    pub fn holds(self, degree: Degree) -> bool {
        let fifths = degree.interval().fifths();
        match self.mode {
            Mode::Major => (-1..=5).contains(&fifths),
            Mode::Minor => (-4..=2).contains(&fifths) || fifths == 5,
        }
    }

    /// All thirty keys, by signature from seven flats to seven sharps, major first.
    pub fn all() -> impl Iterator<Item = Self> {
        (-7..=7).flat_map(|signature| {
            let major = Self {
                tonic: PitchClass::from_fifths(signature),
                mode: Mode::Major,
            };
            let tonic = PitchClass::from_fifths(signature + 3);
            [
                major,
                Self {
                    tonic,
                    mode: Mode::Minor,
                },
            ]
        })
    }

    /// One key a tonic and mode as players write them: at most six accidentals, flats
    /// before sharps where the two are even.
    pub fn everyday() -> impl Iterator<Item = Self> {
        Self::all().filter(|key| (-6..=5).contains(&key.signature()))
    }

    /// The name with signs for the screen or in plain text, such as `B♭ major`.
    #[must_use]
    pub fn written(self, notation: Notation) -> String {
        format!("{} {}", self.tonic.written(notation), self.mode)
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written(Notation::Text))
    }
}

/// Why a text is no key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum KeyError {
    /// The text names no key; it is kept as it stood.
    NotAKey(String),
    /// Its signature would need more than seven accidentals.
    TooRemote(String),
}

impl fmt::Display for KeyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotAKey(text) => write!(
                f,
                "`{}` is not a key; expected a form like `G`, `Bb`, `F#`, `Gm` or `G minor`",
                quoted(text)
            ),
            Self::TooRemote(text) => {
                write!(
                    f,
                    "`{}` needs more than seven sharps or flats; use its enharmonic twin",
                    quoted(text)
                )
            }
        }
    }
}

impl std::error::Error for KeyError {}

impl FromStr for Key {
    type Err = KeyError;

    /// Reads `G`, `Bb`, `Gm`, `g`, `G minor`, `Eb major`. A lower-case letter alone is minor.
    fn from_str(text: &str) -> Result<Self, KeyError> {
        let refused = || KeyError::NotAKey(text.to_owned());
        let trimmed = text.trim();
        let letter = trimmed.chars().next().ok_or_else(refused)?;
        let signs = trimmed[letter.len_utf8()..]
            .find(|c| !matches!(c, '#' | 'b' | '♯' | '♭'))
            .map_or(trimmed.len(), |at| at + letter.len_utf8());
        let tonic: PitchClass = trimmed[..signs].parse().map_err(|_| refused())?;
        let mode = match trimmed[signs..].trim() {
            "" if letter.is_ascii_lowercase() => Mode::Minor,
            "" => Mode::Major,
            "m" | "-" => Mode::Minor,
            "M" => Mode::Major,
            word if word.eq_ignore_ascii_case("minor") || word.eq_ignore_ascii_case("min") => {
                Mode::Minor
            }
            word if word.eq_ignore_ascii_case("major") || word.eq_ignore_ascii_case("maj") => {
                Mode::Major
            }
            _ => return Err(refused()),
        };
        Self::new(tonic, mode).ok_or_else(|| KeyError::TooRemote(text.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signatures_follow_the_circle_of_fifths() {
        // The table printed in every handbook of theory.
        let table = [
            ("Cb", "ab", -7),
            ("Gb", "eb", -6),
            ("Db", "bb", -5),
            ("Ab", "f", -4),
            ("Eb", "c", -3),
            ("Bb", "g", -2),
            ("F", "d", -1),
            ("C", "a", 0),
            ("G", "e", 1),
            ("D", "b", 2),
            ("A", "f#", 3),
            ("E", "c#", 4),
            ("B", "g#", 5),
            ("F#", "d#", 6),
            ("C#", "a#", 7),
        ];
        for (major, minor, signature) in table {
            for name in [major, minor] {
                assert_eq!(
                    name.parse::<Key>().map(Key::signature),
                    Ok(signature),
                    "{name}"
                );
            }
        }
        assert_eq!(Key::all().count(), 30);
    }

    #[test]
    fn players_write_one_key_a_tonic() {
        // Common practice: six flats rather than six sharps.
        let names = |mode| {
            let keys = Key::everyday().filter(move |key| key.mode() == mode);
            keys.map(|key| key.tonic().to_string())
                .collect::<Vec<_>>()
                .join(" ")
        };
        assert_eq!(names(Mode::Major), "Gb Db Ab Eb Bb F C G D A E B");
        assert_eq!(names(Mode::Minor), "Eb Bb F C G D A E B F# C# G#");
    }

    #[test]
    fn a_key_holds_its_scale_and_in_minor_the_leading_tone() {
        for (key, scale) in [("C", "1 2 3 4 5 6 7"), ("Cm", "1 2 b3 4 5 b6 b7 7")] {
            let key: Key = key.parse().expect("a key");
            let held: Vec<String> = (1..=7)
                .flat_map(|number| [-1, 0, 1].map(|sign| Degree::new(number, sign)))
                .filter(|degree| key.holds(*degree))
                .map(|degree| degree.to_string())
                .collect();
            assert_eq!(held.join(" "), scale, "{key}");
            for fifths in -12..=12 {
                let degree = key.degree(PitchClass::from_fifths(fifths));
                assert_eq!(key.note(degree), PitchClass::from_fifths(fifths));
            }
        }
        let sharp: Key = "F#".parse().expect("a key");
        assert_eq!(sharp.degree(PitchClass::C), Degree::new(5, -1));
    }

    #[test]
    fn a_mode_is_read_from_its_word_its_sign_or_the_letters_case() {
        for (text, key) in [
            ("g", "G minor"),
            ("Gm", "G minor"),
            ("G-", "G minor"),
            ("G Min", "G minor"),
            ("gM", "G major"),
            ("b♭ MAJ", "Bb major"),
            (" F# major ", "F# major"),
            ("bb", "Bb minor"),
        ] {
            let read: Key = text.parse().unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(read.to_string(), key, "{text}");
        }
    }

    #[test]
    fn keys_print_as_they_parse() {
        for key in Key::all() {
            assert_eq!(key.to_string().parse(), Ok(key));
            assert_eq!(key.written(Notation::Screen).parse(), Ok(key));
        }
    }

    #[test]
    fn what_is_no_key_is_refused() {
        for text in ["", "H", "G dur", "Gmm", "#", "C♮", "é"] {
            assert_eq!(text.parse::<Key>(), Err(KeyError::NotAKey(text.to_owned())));
        }
        for text in ["G# major", "Fb", "E#m", "dbm"] {
            let error = text.parse::<Key>().expect_err(text);
            assert_eq!(error, KeyError::TooRemote(text.to_owned()));
            assert!(error.to_string().contains("more than seven"), "{error}");
        }
    }
}

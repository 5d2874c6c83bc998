//! The three ways text is written: for files, for the screen, and in pure ASCII.

/// How accidentals and quality signs are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Notation {
    /// Files and JSON: `b # o7 ø7`.
    Text,
    /// The terminal: `♭ ♯ °7 ø7`.
    Screen,
    /// `b # o7 m7b5`, and no other character outside ASCII.
    Ascii,
}

impl Notation {
    /// All notations.
    pub const ALL: [Self; 3] = [Self::Screen, Self::Text, Self::Ascii];

    pub(crate) fn sharp(self) -> char {
        match self {
            Self::Screen => '♯',
            Self::Text | Self::Ascii => '#',
        }
    }

    pub(crate) fn flat(self) -> char {
        match self {
            Self::Screen => '♭',
            Self::Text | Self::Ascii => 'b',
        }
    }

    pub(crate) fn diminished(self) -> char {
        match self {
            Self::Screen => '°',
            Self::Text | Self::Ascii => 'o',
        }
    }

    /// `count` sharps, or `-count` flats.
    pub(crate) fn accidentals(self, count: i16) -> String {
        let sign = if count < 0 { self.flat() } else { self.sharp() };
        std::iter::repeat_n(sign, usize::from(count.unsigned_abs())).collect()
    }
}

//! Dresses bare numerals in the colours of a style: triads, sixths or sevenths.

use rand::{Rng, RngExt};

use crate::devices::Kind;
use crate::theory::{Degree, Head, Mode, Numeral, Quality, Seventh};

/// How tonics and other resting chords are coloured throughout a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Style {
    /// Triads, sevenths on dominants only.
    Triads,
    /// Added sixths on major and minor resting chords, as in the swing years.
    Sixths,
    /// Sevenths on every chord.
    Sevenths,
    /// Sevenths on minor chords and dominants, triads at rest, as in much popular song.
    MinorSevenths,
}

impl Style {
    pub const ALL: [Self; 4] = [
        Self::Triads,
        Self::Sixths,
        Self::Sevenths,
        Self::MinorSevenths,
    ];

    /// Draws a style, each as often as the others.
    pub(super) fn drawn(random: &mut impl Rng) -> Self {
        Self::ALL[random.random_range(0..Self::ALL.len())]
    }

    /// The numeral in this style; its root, kind, bass and target stay. What follows decides
    /// whether a minor subdominant may have a sixth: before V that would make it iiø7.
    pub(super) fn dress(self, numeral: &Numeral, next: Option<&Numeral>, mode: Mode) -> Numeral {
        let Head::Roman { root, quality } = numeral.head else {
            return numeral.clone();
        };
        let dressed = match Kind::of(quality) {
            // Inversions sound as plain triads.
            Kind::Major | Kind::Minor if numeral.bass.is_some() => quality,
            Kind::Major if !is_bare(quality) => quality,
            // The dominant triad stands for the seventh chord in every style.
            Kind::Major if numeral.root() == Degree::new(5, 0) => quality,
            // The subtonic of minor has no sixth or seventh of its own that does not pull.
            Kind::Major if mode == Mode::Minor && numeral.root() == Degree::new(7, -1) => quality,
            Kind::Major => self.major(),
            Kind::Minor => {
                let dominant = Degree::new(5, 0);
                let to_dominant = next.is_some_and(|next| next.root() == dominant);
                let takes_sixth = match mode {
                    Mode::Minor => numeral.root() == Degree::TONIC,
                    Mode::Major => numeral.root() == Degree::new(4, 0) && !to_dominant,
                };
                self.minor(quality, takes_sixth)
            }
            Kind::HalfDiminished
            | Kind::Diminished
            | Kind::Dominant
            | Kind::Augmented
            | Kind::Suspended => quality,
        };
        Numeral {
            head: Head::Roman {
                root,
                quality: dressed,
            },
            ..numeral.clone()
        }
    }

    fn major(self) -> Quality {
        match self {
            Self::Triads | Self::MinorSevenths => Quality::MAJOR,
            Self::Sixths => Quality::MAJOR_SIXTH,
            Self::Sevenths => Quality::MAJOR_SEVENTH,
        }
    }

    fn minor(self, written: Quality, takes_sixth: bool) -> Quality {
        match self {
            Self::Triads if is_bare(written) || written == Quality::MINOR_SEVENTH => Quality::MINOR,
            Self::Sixths if takes_sixth && is_bare(written) => Quality::MINOR_SIXTH,
            Self::Sevenths | Self::MinorSevenths if is_bare(written) => Quality {
                seventh: Some(Seventh::Minor),
                ..Quality::MINOR
            },
            Self::Triads | Self::Sixths | Self::Sevenths | Self::MinorSevenths => written,
        }
    }
}

fn is_bare(quality: Quality) -> bool {
    quality == Quality::MAJOR || quality == Quality::MINOR
}

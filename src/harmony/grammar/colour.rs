//! Dresses bare numerals in the colours of a style: triads, sixths or sevenths.

use rand::{Rng, RngExt};

use crate::devices::{Kind, Shape};
use crate::theory::{Degree, Head, IntervalClass, Mode, Numeral, Quality, Seventh};

/// How tonics and other resting chords are coloured throughout a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Style {
    /// Triads, sevenths on dominants only.
    Triads,
    /// Added sixths on major and minor resting chords, as in the swing years.
    Sixths,
    /// Sevenths on every chord.
    Sevenths,
    /// Sevenths on every chord but the tonic, which has a sixth.
    SixthAtHome,
    /// Sevenths on minor chords and dominants, triads at rest, as in much popular song.
    MinorSevenths,
}

impl Style {
    /// All styles.
    pub const ALL: [Self; 5] = [
        Self::Triads,
        Self::Sixths,
        Self::Sevenths,
        Self::SixthAtHome,
        Self::MinorSevenths,
    ];

    /// The word in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Triads => "triads",
            Self::Sixths => "sixths",
            Self::Sevenths => "sevenths",
            Self::SixthAtHome => "sixth at home",
            Self::MinorSevenths => "minor sevenths",
        }
    }

    /// Draws one of some styles, or of all if none is named, each as often as the others.
    pub(super) fn drawn(styles: &[Self], random: &mut impl Rng) -> Self {
        let styles = if styles.is_empty() {
            &Self::ALL
        } else {
            styles
        };
        styles[random.random_range(0..styles.len())]
    }

    /// The numeral in this style; its root, kind, bass and target stay. What follows decides
    /// whether a minor subdominant may have a sixth: before V that would make it iiø7. What
    /// comes before decides whether there is room for one: the target of an applied dominant
    /// is a triad, or its fifth and sixth would leave the leading tone nowhere to rise.
    pub(super) fn dress(
        self,
        numeral: &Numeral,
        before: Option<&Numeral>,
        next: Option<&Numeral>,
        mode: Mode,
    ) -> Numeral {
        let Head::Roman { root, quality } = numeral.head else {
            return numeral.clone();
        };
        let has_room = !before.is_some_and(|before| leads_to(before, numeral));
        let style = match self {
            Self::SixthAtHome if numeral.root() == Degree::TONIC => Self::Sixths,
            Self::SixthAtHome => Self::Sevenths,
            style => style,
        };
        let dressed = match Kind::of(quality) {
            // Inversions sound as plain triads.
            Kind::Major | Kind::Minor if numeral.bass.is_some() => quality,
            Kind::Major if style == Self::Triads && quality == Quality::MAJOR_SEVENTH => {
                Quality::MAJOR
            }
            Kind::Major if !is_bare(quality) => quality,
            // The dominant triad stands for the seventh chord in every style.
            Kind::Major if numeral.root() == Degree::new(5, 0) => quality,
            // The subtonic of minor has no sixth or seventh of its own that does not pull, and
            // the seventh of the major subdominant there is the minor one.
            Kind::Major
                if mode == Mode::Minor
                    && [Degree::new(7, -1), Degree::new(4, 0)].contains(&numeral.root()) =>
            {
                quality
            }
            Kind::Major => style.major(has_room),
            // The leading tone of the dominant has just arrived.
            Kind::Minor if comes_home(before, numeral) => {
                let bare = Self::Triads.minor(quality, false);
                if style == Self::Sixths && mode == Mode::Minor {
                    style.minor(bare, true)
                } else {
                    bare
                }
            }
            Kind::Minor => {
                let dominant = Degree::new(5, 0);
                let to_dominant = next.is_some_and(|next| next.root() == dominant);
                let takes_sixth = match mode {
                    Mode::Minor => numeral.root() == Degree::TONIC,
                    Mode::Major => numeral.root() == Degree::new(4, 0) && !to_dominant,
                };
                style.minor(quality, takes_sixth && has_room)
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

    fn major(self, takes_sixth: bool) -> Quality {
        match self {
            Self::Sixths if takes_sixth => Quality::MAJOR_SIXTH,
            Self::Triads | Self::Sixths | Self::MinorSevenths => Quality::MAJOR,
            Self::Sevenths | Self::SixthAtHome => Quality::MAJOR_SEVENTH,
        }
    }

    fn minor(self, written: Quality, takes_sixth: bool) -> Quality {
        match self {
            Self::Triads if is_bare(written) || written == Quality::MINOR_SEVENTH => Quality::MINOR,
            Self::Sixths if takes_sixth && is_bare(written) => Quality::MINOR_SIXTH,
            Self::Sevenths | Self::SixthAtHome | Self::MinorSevenths if is_bare(written) => {
                Quality {
                    seventh: Some(Seventh::Minor),
                    ..Quality::MINOR
                }
            }
            Self::Triads
            | Self::Sixths
            | Self::Sevenths
            | Self::SixthAtHome
            | Self::MinorSevenths => written,
        }
    }
}

/// Whether a chord has the leading tone of another that is not the tonic.
fn leads_to(before: &Numeral, numeral: &Numeral) -> bool {
    let leading = Shape::acting(before);
    let interval = match leading.kind {
        Kind::Dominant | Kind::Augmented => IntervalClass::PERFECT_FIFTH,
        Kind::Diminished | Kind::HalfDiminished => IntervalClass::MAJOR_SEVENTH,
        Kind::Major | Kind::Minor | Kind::Suspended => return false,
    };
    numeral.root() != Degree::TONIC && leading.root == numeral.root().up(interval)
}

/// Whether a chord is the tonic after its dominant or leading-tone chord.
fn comes_home(before: Option<&Numeral>, numeral: &Numeral) -> bool {
    let leading = before.map(Shape::acting);
    numeral.root() == Degree::TONIC
        && leading.is_some_and(|leading| match leading.kind {
            Kind::Dominant => [Degree::new(5, 0), Degree::new(2, -1)].contains(&leading.root),
            Kind::Diminished => leading.root == Degree::new(7, 0),
            Kind::Major
            | Kind::Minor
            | Kind::HalfDiminished
            | Kind::Augmented
            | Kind::Suspended => false,
        })
}

/// In the blues the tonic and the subdominant are sevenths wherever they stand.
pub(super) fn blue(numeral: Numeral) -> Numeral {
    let places = [Degree::TONIC, Degree::new(4, 0)];
    match numeral.head {
        Head::Roman { root, quality }
            if Kind::of(quality) == Kind::Major
                && numeral.target.is_none()
                && places.contains(&root) =>
        {
            let quality = Quality::DOMINANT_SEVENTH;
            Numeral {
                bass: numeral.bass,
                ..Numeral::roman(root, quality)
            }
        }
        Head::Roman { .. }
        | Head::Substitute { .. }
        | Head::AugmentedSixth(_)
        | Head::Neapolitan => numeral,
    }
}

fn is_bare(quality: Quality) -> bool {
    quality == Quality::MAJOR || quality == Quality::MINOR
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_target_of_an_applied_dominant_has_room_for_its_leading_tone() {
        let read = |text: &str| -> Numeral { text.parse().expect("a numeral") };
        for (before, chord, dressed) in [
            ("V7/IV", "IV", "IV"),
            ("V7/IV", "iv", "iv"),
            ("V7/bVI", "bVI", "bVI"),
            ("viio7/IV", "IV", "IV"),
            ("ii7", "IV", "IVadd6"),
            ("V7/V", "IV", "IVadd6"),
            ("I", "iv", "ivadd6"),
            // Home keeps its sixth, to which the leading tone of V falls.
            ("V7", "I", "Iadd6"),
        ] {
            let found = Style::Sixths.dress(&read(chord), Some(&read(before)), None, Mode::Major);
            assert_eq!(found, read(dressed), "{before} {chord}");
        }
    }
}

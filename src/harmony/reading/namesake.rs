//! The other names that the notes of a chord bear, wherever they would stand.

use crate::devices::{Kind, Shape};
use crate::theory::{Degree, IntervalClass, Numeral, Quality, Seventh};

/// Numerals on other roots with exactly the notes of this chord, tensions aside.
#[must_use]
pub fn namesakes(chord: &Numeral) -> Vec<Numeral> {
    let Shape { root, kind } = Shape::of(chord);
    let quality = chord.quality().plain();
    let seventh = quality.seventh == Some(Seventh::Minor);
    let on = |interval: IntervalClass, quality: Quality| {
        Numeral::roman(near(root.up(interval)), quality)
    };
    let third = IntervalClass::MINOR_THIRD;
    let sixth = IntervalClass::MAJOR_SIXTH;
    match kind {
        Kind::Diminished if quality.seventh.is_some() => [
            third,
            IntervalClass::DIMINISHED_FIFTH,
            IntervalClass::DIMINISHED_SEVENTH,
        ]
        .map(|interval| on(interval, Quality::DIMINISHED_SEVENTH))
        .into(),
        Kind::Augmented if quality.seventh.is_none() => {
            [IntervalClass::MAJOR_THIRD, IntervalClass::AUGMENTED_FIFTH]
                .map(|interval| on(interval, Quality::AUGMENTED))
                .into()
        }
        Kind::HalfDiminished => vec![on(third, Quality::MINOR_SIXTH)],
        Kind::Minor if seventh => vec![on(third, Quality::MAJOR_SIXTH)],
        Kind::Minor if quality == Quality::MINOR_SIXTH => {
            vec![on(sixth, Quality::HALF_DIMINISHED)]
        }
        Kind::Major if quality == Quality::MAJOR_SIXTH => vec![on(sixth, Quality::MINOR_SEVENTH)],
        Kind::Major
        | Kind::Minor
        | Kind::Dominant
        | Kind::Diminished
        | Kind::Augmented
        | Kind::Suspended => Vec::new(),
    }
}

/// The degree on the same key of the piano with at most one accidental.
fn near(degree: Degree) -> Degree {
    let fifths = degree.interval().fifths();
    let near = match fifths {
        ..=-7 => fifths + 12,
        9.. => fifths - 12,
        _ => fifths,
    };
    Degree::at(IntervalClass::from_fifths(near))
}

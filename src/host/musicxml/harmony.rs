//! Chord symbols in the words of MusicXML.

use crate::theory::{Fifth, Quality, Seventh, Symbol, Tension, Third};

/// A kind of chord that MusicXML has a word for, and the notes by which ours differs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct KindElement {
    pub(super) word: &'static str,
    pub(super) degrees: Vec<DegreeElement>,
}

/// A note added to the kind of chord, or altered in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct DegreeElement {
    pub(super) value: u8,
    /// Semitones; of an added note against the dominant thirteenth chord on the root.
    pub(super) alter: i8,
    /// `add`, `alter` or `subtract`.
    pub(super) change: &'static str,
}

const fn add(value: u8, alter: i8) -> DegreeElement {
    DegreeElement {
        value,
        alter,
        change: "add",
    }
}

const fn alter(value: u8, alter: i8) -> DegreeElement {
    DegreeElement {
        value,
        alter,
        change: "alter",
    }
}

/// The kind of a symbol's chord.
pub(super) fn kind(symbol: &Symbol) -> KindElement {
    let quality = symbol.quality;
    let mut kind = base(quality);
    kind.degrees.extend(quality.tensions.iter().map(tension));
    kind
}

fn tension(tension: Tension) -> DegreeElement {
    match tension {
        Tension::FlatNine => add(9, -1),
        Tension::Nine => add(9, 0),
        Tension::SharpNine => add(9, 1),
        Tension::Eleven => add(11, 0),
        Tension::SharpEleven => add(11, 1),
        Tension::FlatThirteen => add(13, -1),
        Tension::Thirteen => add(13, 0),
    }
}

/// The kind without its tensions.
fn base(quality: Quality) -> KindElement {
    let triad = triad(quality);
    let sixth = quality.added_sixth.then_some(add(6, 0));
    let (word, taken) = match (quality.third, quality.fifth, quality.seventh) {
        (Third::Major, Fifth::Perfect, None) if quality.added_sixth => ("major-sixth", true),
        (Third::Minor, Fifth::Perfect, None) if quality.added_sixth => ("minor-sixth", true),
        (Third::Major, Fifth::Perfect, Some(Seventh::Major)) => ("major-seventh", false),
        (Third::Major, Fifth::Perfect, Some(Seventh::Minor)) => ("dominant", false),
        (Third::Minor, Fifth::Perfect, Some(Seventh::Major)) => ("major-minor", false),
        (Third::Minor, Fifth::Perfect, Some(Seventh::Minor)) => ("minor-seventh", false),
        (Third::Minor, Fifth::Diminished, Some(Seventh::Minor)) => ("half-diminished", false),
        (Third::Minor, Fifth::Diminished, Some(Seventh::Diminished)) => {
            ("diminished-seventh", false)
        }
        (Third::Major, Fifth::Augmented, Some(Seventh::Minor)) => ("augmented-seventh", false),
        (_, _, seventh) => {
            let mut degrees = triad.degrees;
            degrees.extend(sixth);
            degrees.extend(seventh.map(|seventh| match seventh {
                Seventh::Major => add(7, 1),
                Seventh::Minor => add(7, 0),
                Seventh::Diminished => add(7, -1),
            }));
            return KindElement {
                word: triad.word,
                degrees,
            };
        }
    };
    let degrees = sixth.filter(|_| !taken).into_iter().collect();
    KindElement { word, degrees }
}

/// The three notes below any sixth, seventh and tension.
fn triad(quality: Quality) -> KindElement {
    let (word, degrees) = match (quality.third, quality.fifth) {
        (Third::Major, Fifth::Perfect) => ("major", vec![]),
        (Third::Major, Fifth::Diminished) => ("major", vec![alter(5, -1)]),
        (Third::Major, Fifth::Augmented) => ("augmented", vec![]),
        (Third::Minor, Fifth::Perfect) => ("minor", vec![]),
        (Third::Minor, Fifth::Diminished) => ("diminished", vec![]),
        (Third::Minor, Fifth::Augmented) => ("minor", vec![alter(5, 1)]),
        (Third::Fourth, fifth) => ("suspended-fourth", altered(fifth)),
        (Third::Second, fifth) => ("suspended-second", altered(fifth)),
        (Third::Omitted, fifth) => ("power", altered(fifth)),
    };
    KindElement { word, degrees }
}

fn altered(fifth: Fifth) -> Vec<DegreeElement> {
    match fifth {
        Fifth::Perfect => vec![],
        Fifth::Diminished => vec![alter(5, -1)],
        Fifth::Augmented => vec![alter(5, 1)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn symbols_have_the_kinds_of_the_standard() {
        // The values of `kind-value` in MusicXML 4.0, by the intervals that it lists for each.
        for (text, word, degrees) in [
            ("C", "major", vec![]),
            ("Cm", "minor", vec![]),
            ("Co", "diminished", vec![]),
            ("C+", "augmented", vec![]),
            ("C7", "dominant", vec![]),
            ("Cmaj7", "major-seventh", vec![]),
            ("Cm7", "minor-seventh", vec![]),
            ("Cmmaj7", "major-minor", vec![]),
            ("Cø7", "half-diminished", vec![]),
            ("Co7", "diminished-seventh", vec![]),
            ("C+7", "augmented-seventh", vec![]),
            ("C6", "major-sixth", vec![]),
            ("Cm6", "minor-sixth", vec![]),
            ("Csus4", "suspended-fourth", vec![]),
            ("C7sus4", "suspended-fourth", vec![add(7, 0)]),
            ("C7b9", "dominant", vec![add(9, -1)]),
            ("C7b5", "major", vec![alter(5, -1), add(7, 0)]),
        ] {
            let symbol: Symbol = text.parse().expect("a symbol");
            let expected = KindElement { word, degrees };
            assert_eq!(kind(&symbol), expected, "{text}");
        }
    }
}

//! Reads a quality after a numeral or after a root, in every common writing.

use super::{Fifth, Quality, Seventh, Tension, Tensions, Third};

/// A figured-bass number after a numeral: which chord member is in the bass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Figure {
    /// A bare `6`, which jazz reads as an added sixth and figured bass as an inversion.
    BareSix,
    SixFour,
    SixFive,
    FourThree,
    FourTwo,
}

/// A quality that has been read, with the figures found beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Suffix {
    pub(crate) quality: Quality,
    pub(crate) figure: Option<Figure>,
}

/// Where reading stopped: the byte offset within the suffix.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct SuffixFault {
    pub(crate) offset: usize,
}

/// One written sign of a suffix.
#[derive(Clone, Copy, PartialEq)]
enum Sign {
    Minor,
    MajorStacked(u8),
    Major,
    Circle,
    SlashedCircle,
    Augmented,
    Six,
    SixNine,
    AddedSixth,
    Seven,
    Stacked(u8),
    Added(Tension),
    FlatFive,
    SharpFive,
    SuspendedFour,
    SuspendedTwo,
    Altered,
    Power,
    Figure(Figure),
    Open,
    Close,
}

use Sign::{
    Added, AddedSixth, Altered, Augmented, Circle, Close, Figure as Fig, FlatFive, Major,
    MajorStacked, Minor, Open, Power, Seven, SharpFive, Six, SixNine, SlashedCircle, Stacked,
    SuspendedFour, SuspendedTwo,
};

/// Longer signs stand before those they begin with.
const SIGNS: &[(&str, Sign)] = &[
    ("maj13", MajorStacked(13)),
    ("Maj13", MajorStacked(13)),
    ("maj11", MajorStacked(11)),
    ("maj9", MajorStacked(9)),
    ("Maj9", MajorStacked(9)),
    ("maj7", MajorStacked(7)),
    ("Maj7", MajorStacked(7)),
    ("ma7", MajorStacked(7)),
    ("M13", MajorStacked(13)),
    ("M9", MajorStacked(9)),
    ("M7", MajorStacked(7)),
    ("Δ9", MajorStacked(9)),
    ("Δ7", MajorStacked(7)),
    ("Δ", MajorStacked(7)),
    ("△7", MajorStacked(7)),
    ("△", MajorStacked(7)),
    ("maj", Major),
    ("M", Major),
    ("dim", Circle),
    ("min", Minor),
    ("mi", Minor),
    ("m", Minor),
    ("-", Minor),
    ("o", Circle),
    ("°", Circle),
    ("º", Circle),
    ("/o", SlashedCircle),
    ("/°", SlashedCircle),
    ("ø", SlashedCircle),
    ("Ø", SlashedCircle),
    ("aug", Augmented),
    ("+", Augmented),
    ("add13", Added(Tension::Thirteen)),
    ("add11", Added(Tension::Eleven)),
    ("add9", Added(Tension::Nine)),
    ("add2", Added(Tension::Nine)),
    ("add6", AddedSixth),
    ("sus4", SuspendedFour),
    ("sus2", SuspendedTwo),
    ("sus", SuspendedFour),
    ("alt", Altered),
    ("b5", FlatFive),
    ("♭5", FlatFive),
    ("#5", SharpFive),
    ("♯5", SharpFive),
    ("b9", Added(Tension::FlatNine)),
    ("♭9", Added(Tension::FlatNine)),
    ("#9", Added(Tension::SharpNine)),
    ("♯9", Added(Tension::SharpNine)),
    ("#11", Added(Tension::SharpEleven)),
    ("♯11", Added(Tension::SharpEleven)),
    ("b13", Added(Tension::FlatThirteen)),
    ("♭13", Added(Tension::FlatThirteen)),
    ("13", Stacked(13)),
    ("11", Stacked(11)),
    ("65", Fig(Figure::SixFive)),
    ("64", Fig(Figure::SixFour)),
    ("6/4", Fig(Figure::SixFour)),
    ("4/3", Fig(Figure::FourThree)),
    ("4/2", Fig(Figure::FourTwo)),
    ("43", Fig(Figure::FourThree)),
    ("42", Fig(Figure::FourTwo)),
    ("69", SixNine),
    ("6/9", SixNine),
    ("6", Six),
    ("9", Stacked(9)),
    ("7", Seven),
    ("5", Power),
    ("2", Fig(Figure::FourTwo)),
    ("(", Open),
    (")", Close),
];

/// Whether a bare six and figures belong to the language being read.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Figures {
    /// After a numeral.
    Read,
    /// After the root of a chord symbol, where `6` is always an added sixth.
    None,
}

impl Suffix {
    /// Reads as far as the signs go; gives what was read and the number of bytes.
    ///
    /// # Errors
    /// At the first sign that contradicts one before it.
    pub(crate) fn read(
        text: &str,
        third: Third,
        figures: Figures,
    ) -> Result<(Self, usize), SuffixFault> {
        let mut reading = Reading::new(third, figures);
        let mut offset = 0;
        while let Some((sign, length)) = next_sign(&text[offset..], figures) {
            reading.take(sign).ok_or(SuffixFault { offset })?;
            offset += length;
        }
        if reading.in_brackets {
            return Err(SuffixFault { offset });
        }
        Ok((reading.finish(), offset))
    }
}

fn next_sign(text: &str, figures: Figures) -> Option<(Sign, usize)> {
    SIGNS
        .iter()
        .filter(|(_, sign)| figures == Figures::Read || !matches!(sign, Fig(_)))
        .find(|(written, _)| text.starts_with(written))
        .map(|(written, sign)| (*sign, written.len()))
}

struct Reading {
    figures: Figures,
    third: Third,
    third_is_said: bool,
    fifth: Option<Fifth>,
    circle: bool,
    added_sixth: bool,
    seventh: Option<Seventh>,
    stacked: u8,
    tensions: Tensions,
    figure: Option<Figure>,
    in_brackets: bool,
}

impl Reading {
    fn new(third: Third, figures: Figures) -> Self {
        Self {
            figures,
            third,
            third_is_said: false,
            fifth: None,
            circle: false,
            added_sixth: false,
            seventh: None,
            stacked: 0,
            tensions: Tensions::NONE,
            figure: None,
            in_brackets: false,
        }
    }

    /// Takes one sign in, or refuses it.
    fn take(&mut self, sign: Sign) -> Option<()> {
        match sign {
            Minor => self.say_third(Third::Minor),
            Major => self.say_third(Third::Major),
            MajorStacked(number) => {
                self.stack(number)?;
                self.say_seventh(Seventh::Major)
            }
            Circle => {
                self.circle = true;
                self.say_third(Third::Minor)?;
                self.say_fifth(Fifth::Diminished)
            }
            SlashedCircle => {
                self.say_third(Third::Minor)?;
                self.say_fifth(Fifth::Diminished)?;
                self.say_seventh(Seventh::Minor)
            }
            Augmented | SharpFive => self.say_fifth(Fifth::Augmented),
            FlatFive => self.say_fifth(Fifth::Diminished),
            Six if self.figures == Figures::Read => self.say_figure(Figure::BareSix),
            Six | AddedSixth => self.add_sixth(),
            SixNine => {
                self.tensions = self.tensions.with(Tension::Nine);
                self.add_sixth()
            }
            Seven => self.stack(7),
            Stacked(number) => self.stack(number),
            Added(tension) => {
                (!self.tensions.has(tension)).then(|| self.tensions = self.tensions.with(tension))
            }
            SuspendedFour => self.say_third(Third::Fourth),
            SuspendedTwo => self.say_third(Third::Second),
            Power => self.say_third(Third::Omitted),
            Altered => {
                for tension in [
                    Tension::FlatNine,
                    Tension::SharpNine,
                    Tension::SharpEleven,
                    Tension::FlatThirteen,
                ] {
                    self.take(Added(tension))?;
                }
                // The seven is often written out before it: `G7alt`.
                (self.stacked == 7).then_some(()).or_else(|| self.stack(7))
            }
            Fig(figure) => self.say_figure(figure),
            Open => (!self.in_brackets).then(|| self.in_brackets = true),
            Close => self.in_brackets.then(|| self.in_brackets = false),
        }
    }

    fn say_third(&mut self, third: Third) -> Option<()> {
        (!self.third_is_said).then(|| {
            self.third = third;
            self.third_is_said = true;
        })
    }

    fn say_fifth(&mut self, fifth: Fifth) -> Option<()> {
        self.fifth.is_none().then(|| self.fifth = Some(fifth))
    }

    fn say_seventh(&mut self, seventh: Seventh) -> Option<()> {
        self.seventh.is_none().then(|| self.seventh = Some(seventh))
    }

    fn stack(&mut self, number: u8) -> Option<()> {
        (self.stacked == 0).then(|| self.stacked = number)
    }

    fn add_sixth(&mut self) -> Option<()> {
        (!self.added_sixth).then(|| self.added_sixth = true)
    }

    fn say_figure(&mut self, figure: Figure) -> Option<()> {
        self.figure.is_none().then(|| self.figure = Some(figure))
    }

    fn finish(mut self) -> Suffix {
        let takes_seventh = self.stacked >= 7
            || matches!(
                self.figure,
                Some(Figure::SixFive | Figure::FourThree | Figure::FourTwo)
            );
        if takes_seventh && self.seventh.is_none() {
            self.seventh = Some(if self.circle {
                Seventh::Diminished
            } else {
                Seventh::Minor
            });
        }
        let altered_nine =
            self.tensions.has(Tension::FlatNine) || self.tensions.has(Tension::SharpNine);
        match self.stacked {
            9 => self.tensions = self.tensions.with(Tension::Nine),
            11 | 13 => {
                if !altered_nine {
                    self.tensions = self.tensions.with(Tension::Nine);
                }
                let top = if self.stacked == 11 {
                    Tension::Eleven
                } else {
                    Tension::Thirteen
                };
                self.tensions = self.tensions.with(top);
            }
            _ => {}
        }
        let quality = Quality {
            third: self.third,
            fifth: self.fifth.unwrap_or(Fifth::Perfect),
            added_sixth: self.added_sixth,
            seventh: self.seventh,
            tensions: self.tensions,
        };
        Suffix {
            quality,
            figure: self.figure,
        }
    }
}

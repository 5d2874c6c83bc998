//! Writes a quality after a numeral or after a root.

use super::{Fifth, Quality, Seventh, Tension, Tensions, Third};
use crate::theory::notation::Notation;

/// Bytes enough for the sign of any quality, in any notation.
pub(crate) const LONGEST_SUFFIX: usize = 64;

impl Quality {
    /// The sign that follows a Roman numeral, whose case already tells the third.
    #[must_use]
    pub fn numeral_suffix(self, notation: Notation) -> String {
        self.suffix(notation, "", "add6")
    }

    /// The sign that follows a root in a chord symbol. One that begins with an accidental
    /// stands in brackets, or it would be taken for the root's: `C(b5)`.
    #[must_use]
    pub fn symbol_suffix(self, notation: Notation) -> String {
        let suffix = self.suffix(notation, "m", "6");
        // `Cmmaj7` is hard to read.
        if let Some(major) = suffix.strip_prefix("mmaj") {
            return format!("m(maj{major})");
        }
        if suffix.starts_with([notation.flat(), notation.sharp()]) {
            format!("({suffix})")
        } else {
            suffix
        }
    }

    /// Whether a Roman numeral of this quality is written in lower case.
    #[must_use]
    pub fn is_lower_case(self) -> bool {
        self.third == Third::Minor
    }

    fn suffix(self, notation: Notation, minor: &str, sixth: &str) -> String {
        if self.is_half_diminished() {
            let sign = match notation {
                Notation::Text | Notation::Screen => "ø",
                Notation::Ascii => return format!("m{}b5", self.number_and_tensions(notation)),
            };
            return sign.to_owned() + &self.number_and_tensions(notation);
        }
        let mut text = String::new();
        let circle = self.third == Third::Minor
            && self.fifth == Fifth::Diminished
            && matches!(self.seventh, None | Some(Seventh::Diminished));
        if circle {
            text.push(notation.diminished());
        } else if self.third == Third::Minor {
            text += minor;
        }
        let plus = self.fifth == Fifth::Augmented && self.third == Third::Major;
        if plus {
            text.push('+');
        }
        if self.third == Third::Omitted {
            text.push('5');
        }
        if self.added_sixth {
            text += if self.seventh.is_some() {
                "add6"
            } else {
                sixth
            };
        }
        text += &self.number_and_tensions(notation);
        match self.fifth {
            Fifth::Diminished if !circle => text += &format!("{}5", notation.flat()),
            Fifth::Augmented if !plus => text += &format!("{}5", notation.sharp()),
            Fifth::Perfect | Fifth::Diminished | Fifth::Augmented => {}
        }
        match self.third {
            Third::Fourth => text += "sus4",
            Third::Second => text += "sus2",
            Third::Major | Third::Minor | Third::Omitted => {}
        }
        text
    }

    fn is_half_diminished(self) -> bool {
        self.third == Third::Minor
            && self.fifth == Fifth::Diminished
            && self.seventh == Some(Seventh::Minor)
            && !self.added_sixth
    }

    /// `7`, `maj9`, `13b9`, `add9` …
    fn number_and_tensions(self, notation: Notation) -> String {
        let mut rest = self.tensions;
        let mut text = match self.seventh {
            None => String::new(),
            Some(seventh) => {
                let number = highest_stacked(&mut rest);
                let major = if seventh == Seventh::Major { "maj" } else { "" };
                format!("{major}{number}")
            }
        };
        for tension in rest.iter() {
            text += &match tension {
                Tension::FlatNine => format!("{}9", notation.flat()),
                Tension::SharpNine => format!("{}9", notation.sharp()),
                Tension::SharpEleven => format!("{}11", notation.sharp()),
                Tension::FlatThirteen => format!("{}13", notation.flat()),
                Tension::Nine => "add9".to_owned(),
                Tension::Eleven => "add11".to_owned(),
                Tension::Thirteen => "add13".to_owned(),
            };
        }
        text
    }
}

/// The number of a seventh chord stacked in thirds, taking what it says out of `rest`.
/// An altered ninth takes the place of the natural one that 11 and 13 imply.
fn highest_stacked(rest: &mut Tensions) -> u8 {
    let natural = rest.has(Tension::Nine);
    let altered = rest.has(Tension::FlatNine) || rest.has(Tension::SharpNine);
    if natural == altered {
        return 7;
    }
    *rest = rest.without(Tension::Nine);
    for (tension, number) in [(Tension::Thirteen, 13), (Tension::Eleven, 11)] {
        if rest.has(tension) {
            *rest = rest.without(tension);
            return number;
        }
    }
    if natural { 9 } else { 7 }
}

//! What every form of answer can do.

use std::fmt;

use super::fairness::{Blind, Unfair};
use crate::devices::{Catalogue, DeviceId};
use crate::harmony::{ChordInContext, Tier};
use crate::quiz::material::Material;
use crate::theory::{BareSix, Line, NameError, Notation, NumeralError, quoted};

/// How an answer is given. The interface has one way of taking in each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AnswerManner {
    /// One of those on offer.
    Offered,
    /// One word is typed.
    Typed,
    /// Several words are typed, with spaces between them.
    Words,
    /// Chords of the line, taken in and out.
    OnChart,
}

/// The mark of one answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// How near the answer came.
    pub tier: Tier,
    /// 0 to 1.
    pub credit: f64,
    /// The device that the answer would have been, where it names one of another device.
    pub heard_as: Option<DeviceId>,
}

impl Mark {
    /// A mark with the credit of its tier.
    pub(super) fn of(tier: Tier, heard_as: Option<DeviceId>) -> Self {
        Self {
            tier,
            credit: tier.credit(),
            heard_as,
        }
    }

    pub(super) fn right_if(right: bool) -> Self {
        Self::of(if right { Tier::Right } else { Tier::Wrong }, None)
    }

    /// The mark of an answer of several parts of which this share, 0 to 1, is right.
    pub(super) fn of_share(share: f64) -> Self {
        let tier = if share >= 1.0 {
            Tier::Right
        } else if share > 0.0 {
            Tier::Partly
        } else {
            Tier::Wrong
        };
        Self {
            credit: share,
            ..Self::of(tier, None)
        }
    }
}

/// A form of answer: one thing asked, its truth, and the answer given so far.
pub trait Form {
    /// The slot of the line that is asked about, if it is one.
    fn slot(&self) -> Option<usize> {
        None
    }

    /// The devices whose hearing it tests, the asked one first.
    fn devices(&self) -> &[DeviceId];

    /// How it is answered.
    fn manner(&self) -> AnswerManner;

    /// How an answer is typed where there is nothing but lines of text, in a sentence.
    fn instruction(&self) -> &'static str;

    /// An example of what can be typed, for an empty field.
    fn example(&self) -> &'static str {
        ""
    }

    /// What is asked, where several things are; nothing where the question's own prompt
    /// says it.
    fn prompt(&self, _line: &Line) -> Option<String> {
        None
    }

    /// The answers on offer as they are shown; none where anything may be answered. A blind
    /// guess is right once in so many.
    fn labels(&self, _notation: Notation) -> Vec<String> {
        Vec::new()
    }

    /// The right answer as it is shown.
    fn truth(&self, notation: Notation) -> String;

    /// Everything that counts as right, as it may be written.
    fn accepted(&self, notation: Notation) -> Vec<String> {
        vec![self.truth(notation)]
    }

    /// The answer that has been given, as it is shown.
    fn given(&self, notation: Notation) -> Option<String>;

    /// Takes one of the answers on offer, from 0; whether there is such a one.
    fn choose(&mut self, _choice: usize) -> bool {
        false
    }

    /// Reads a typed answer: what the form is made of, or one on offer by its number from
    /// 1 or its label. A bare six is read as `six` says.
    ///
    /// # Errors
    /// If it is none.
    fn read(&mut self, text: &str, six: BareSix) -> Result<(), Misread>;

    /// Takes a slot into the answer, or out of it; whether slots can be an answer.
    fn toggle(&mut self, _slot: usize) -> bool {
        false
    }

    /// The slots that have been taken in; nothing where slots are no answer.
    fn marked_slots(&self) -> Option<&[usize]> {
        None
    }

    /// Whether a slot belongs to the right answer, which is no chord's name.
    fn points_at(&self, _slot: usize) -> bool {
        false
    }

    /// Whether the key is what is asked.
    fn asks_key(&self) -> bool {
        false
    }

    /// The chord that is asked, in its context.
    fn chord(&self) -> Option<&ChordInContext> {
        None
    }

    /// The mark of the answer given; nothing without one.
    fn mark(&self, material: Material<'_>, catalogue: &Catalogue) -> Option<Mark>;

    /// The line with the answer in it, to be heard beside the truth; nothing where the
    /// answer is nothing that sounds.
    fn playback(
        &self,
        _mark: &Mark,
        _material: Material<'_>,
        _catalogue: &Catalogue,
    ) -> Option<Line> {
        None
    }

    /// What the mark says: the truth, what it does, its other names, and where the answer
    /// went wrong.
    fn diagnosis(&self, mark: &Mark, material: Material<'_>, notation: Notation) -> Vec<String>;

    /// The device whose cue helps to hear the answer, if one does.
    fn cue(&self, _material: Material<'_>) -> Option<&DeviceId> {
        self.devices().first()
    }

    /// What is unfair about it, seen by a reader who has the symbols alone.
    fn unfair(&self, material: Material<'_>, blind: &dyn Blind) -> Vec<(Unfair, String)>;

    /// The names on offer as a pupil would remember them from other questions, and which
    /// of them is right; nothing where there are no names to remember.
    fn remembered(&self, _material: Material<'_>) -> Option<(Vec<String>, usize)> {
        None
    }

    /// What is to be guessed where it is not the wanted device, as a number.
    fn class(&self, _material: Material<'_>) -> Option<usize> {
        None
    }

    /// Whether the wrong answers on offer name chords or devices, which may lie near the
    /// right one.
    fn has_neighbours(&self) -> bool {
        false
    }
}

/// A text that is no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Misread {
    /// It is no numeral.
    Numeral(NumeralError),
    /// It is no degree.
    Degree(NameError),
    /// Nothing where degrees were expected.
    NoDegrees,
    /// None of the answers on offer, of which there are so many.
    NotOffered {
        /// The text.
        found: String,
        /// How many answers are on offer.
        offers: usize,
    },
    /// The number of no chord of the line, which has so many.
    NoChord {
        /// The text.
        found: String,
        /// How many chords the line has.
        chords: usize,
    },
}

impl fmt::Display for Misread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Numeral(error) => error.fmt(f),
            Self::Degree(error) => error.fmt(f),
            Self::NoDegrees => f.write_str("there is no degree; expected some, such as `6 b6 5`"),
            Self::NotOffered { found, offers } => write!(
                f,
                "`{}` is not an answer; expected one of those on offer, or its number, 1 to {offers}",
                quoted(found)
            ),
            Self::NoChord { found, chords } => write!(
                f,
                "`{}` is no chord's number; expected numbers from 1 to {chords}",
                quoted(found)
            ),
        }
    }
}

impl std::error::Error for Misread {}

/// One of the answers on offer, by its number from 1 or by its label in any notation.
///
/// # Errors
/// If it is none of them.
pub(super) fn offered(form: &dyn Form, text: &str) -> Result<usize, Misread> {
    let offers = form.labels(Notation::Text).len();
    let by_number = || {
        let number = text.parse::<usize>().ok()?;
        (1..=offers).contains(&number).then(|| number - 1)
    };
    let by_label = || {
        Notation::ALL.into_iter().find_map(|notation| {
            let labels = form.labels(notation);
            let is_meant = |label: &String| label.to_lowercase() == text.to_lowercase();
            labels.iter().position(is_meant)
        })
    };
    by_number()
        .or_else(by_label)
        .ok_or_else(|| Misread::NotOffered {
            found: text.to_owned(),
            offers,
        })
}

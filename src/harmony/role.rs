//! What a chord does in its key.

use crate::theory::{Degree, IntervalClass, Mode, Notation};

/// How a chord stands to the tonic: the coarsest answer an ear can give.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Area {
    /// At rest: the tonic and its substitutes.
    Home,
    /// Away from home without pull: subdominants and borrowed colours.
    Away,
    /// Pulling to another chord: dominants of every kind.
    Pull,
}

/// The function of a chord, decided by what it is and where it goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Role {
    /// The chord of home.
    Tonic,
    /// A chord that stands for the tonic: vi, iii.
    TonicSubstitute,
    /// A chord that leaves home for the dominant: IV, ii.
    Subdominant,
    /// A subdominant borrowed from minor: iv, iiø7.
    MinorSubdominant,
    /// The major chord on the flat second degree.
    Neapolitan,
    /// ♭VII of minor, a whole step below home and without a leading tone.
    Subtonic,
    /// The dominant of the tonic.
    Dominant,
    /// V with its third or more held back: V7sus4, ii7/5, IV/5.
    SuspendedDominant,
    /// The tonic over its fifth, a suspension of the dominant that follows.
    CadentialSixFour,
    /// The diminished chord on the leading tone.
    LeadingTone,
    /// The minor chord on the fifth degree.
    MinorDominant,
    /// The dominant of a degree other than the tonic.
    AppliedDominant(Degree),
    /// The leading-tone chord of a degree other than the tonic.
    AppliedLeadingTone(Degree),
    /// The ii of a degree's dominant.
    RelatedTwo(Degree),
    /// A dominant seventh a semitone above its target.
    TritoneSubstitute(Degree),
    /// An augmented sixth that opens to the octave of the degree a semitone below its bass.
    AugmentedSixth(Degree),
    /// An augmented sixth with a note in common with the chord it embellishes.
    CommonToneAugmentedSixth,
    /// ♭VII7 going home.
    Backdoor,
    /// A major or minor chord of the parallel mode.
    Borrowed,
    /// The half-diminished chord on the raised fourth degree.
    SharpFourHalfDiminished,
    /// A diminished seventh that falls to the next chord.
    FallingDiminished,
    /// A diminished seventh with a note in common with the chord it embellishes.
    CommonToneDiminished,
    /// A dominant seventh that rests, as in the blues.
    BluesSeventh,
    /// A chord of the key of another degree, where the line dwells for a while.
    OfKey(Degree),
    /// A chromatic chord that none of the other roles describes.
    Chromatic,
}

/// All that is said of a role: a new one needs its variant and its line in [`Role::facts`].
struct Facts {
    area: Area,
    /// In words, the target as `{}`.
    words: &'static str,
    target: Option<Degree>,
    /// Where it resolves, if it is a dominant of any form.
    leads_to: Option<Degree>,
}

impl Facts {
    const fn new(area: Area, words: &'static str) -> Self {
        Self {
            area,
            words,
            target: None,
            leads_to: None,
        }
    }

    /// Named by a degree.
    const fn of(self, target: Degree) -> Self {
        Self {
            target: Some(target),
            ..self
        }
    }

    /// Resolving to a degree.
    const fn to(self, goal: Degree) -> Self {
        Self {
            leads_to: Some(goal),
            ..self
        }
    }
}

impl Role {
    fn facts(self) -> Facts {
        use Area::{Away, Home, Pull};
        let is_of_home = |target: Degree| target == Degree::TONIC;
        match self {
            Self::Tonic => Facts::new(Home, "tonic"),
            Self::TonicSubstitute => Facts::new(Home, "tonic substitute"),
            Self::BluesSeventh => Facts::new(Home, "resting seventh chord"),
            Self::Subdominant => Facts::new(Away, "subdominant"),
            Self::MinorSubdominant => Facts::new(Away, "minor subdominant"),
            Self::Neapolitan => Facts::new(Away, "Neapolitan"),
            Self::Subtonic => Facts::new(Away, "subtonic"),
            Self::MinorDominant => Facts::new(Away, "minor dominant"),
            Self::Borrowed => Facts::new(Away, "borrowed from the parallel mode"),
            Self::SharpFourHalfDiminished => {
                Facts::new(Away, "half-diminished on the raised fourth")
            }
            Self::Chromatic => Facts::new(Away, "chromatic chord"),
            Self::RelatedTwo(target) if is_of_home(target) => {
                Facts::new(Away, "related ii of the tritone substitute").of(target)
            }
            Self::RelatedTwo(target) => Facts::new(Away, "related ii of {}").of(target),
            Self::OfKey(key) => Facts::new(Away, "chord of the key of {}").of(key),
            Self::Dominant => Facts::new(Pull, "dominant").to(Degree::TONIC),
            Self::LeadingTone => Facts::new(Pull, "leading-tone chord").to(Degree::TONIC),
            Self::SuspendedDominant => Facts::new(Pull, "suspended dominant"),
            Self::CadentialSixFour => Facts::new(Pull, "cadential six-four"),
            Self::Backdoor => Facts::new(Pull, "backdoor dominant"),
            Self::FallingDiminished => Facts::new(Pull, "falling diminished seventh"),
            Self::CommonToneDiminished => Facts::new(Pull, "common-tone diminished seventh"),
            Self::CommonToneAugmentedSixth => Facts::new(Pull, "common-tone augmented sixth"),
            Self::AppliedDominant(target) => {
                Facts::new(Pull, "dominant of {}").of(target).to(target)
            }
            Self::AppliedLeadingTone(target) => Facts::new(Pull, "leading-tone chord of {}")
                .of(target)
                .to(target),
            Self::TritoneSubstitute(target) if is_of_home(target) => {
                Facts::new(Pull, "tritone substitute of the dominant")
                    .of(target)
                    .to(target)
            }
            Self::TritoneSubstitute(target) => {
                Facts::new(Pull, "tritone substitute, leading to {}")
                    .of(target)
                    .to(target)
            }
            Self::AugmentedSixth(target) => Facts::new(Pull, "augmented sixth of {}")
                .of(target)
                .to(target),
        }
    }

    /// Whether it is at home, away or pulls.
    #[must_use]
    pub fn area(self) -> Area {
        self.facts().area
    }

    /// The degree that the chord leads to or belongs to, if it is named by one.
    #[must_use]
    pub fn target(self) -> Option<Degree> {
        self.facts().target
    }

    /// The degree that a dominant resolves to, whatever its form: a dominant seventh, a
    /// leading-tone chord, a tritone substitute or an augmented sixth.
    #[must_use]
    pub fn leads_to(self) -> Option<Degree> {
        self.facts().leads_to
    }

    /// The role in words, its target as a numeral of the mode.
    #[must_use]
    pub fn words(self, mode: Mode, notation: Notation) -> String {
        self.words_naming(|degree| degree_numeral(degree, mode, notation))
    }

    /// The role in words, its target as `named` says.
    pub(crate) fn words_naming(self, named: impl Fn(Degree) -> String) -> String {
        let Facts { words, target, .. } = self.facts();
        target.map_or_else(
            || words.to_owned(),
            |target| words.replace("{}", &named(target)),
        )
    }
}

/// The numeral of the ordinary chord on a degree: `ii` on 2 in major, `♭VI` on ♭6.
#[must_use]
pub fn degree_numeral(degree: Degree, mode: Mode, notation: Notation) -> String {
    triad_numeral(degree, is_minor_degree(degree, mode), notation)
}

/// The numeral of the minor or major chord on a degree.
pub(crate) fn triad_numeral(degree: Degree, minor: bool, notation: Notation) -> String {
    const ROMAN: [&str; 7] = ["I", "II", "III", "IV", "V", "VI", "VII"];
    let roman = ROMAN[usize::from(degree.number()) - 1];
    let accidentals = Degree::at(degree.interval()).written(notation);
    let signs = &accidentals[..accidentals.len() - 1];
    format!(
        "{signs}{}",
        if minor {
            roman.to_lowercase()
        } else {
            roman.to_owned()
        }
    )
}

/// Whether the ordinary chord on a degree is minor.
pub(crate) fn is_minor_degree(degree: Degree, mode: Mode) -> bool {
    let natural = degree.alteration() == 0;
    match mode {
        Mode::Major => natural && matches!(degree.number(), 2 | 3 | 6),
        Mode::Minor => natural && matches!(degree.number(), 1 | 2 | 4),
    }
}

/// The degree a perfect fourth above: where a dominant falls to.
pub(crate) fn fourth_above(degree: Degree) -> Degree {
    degree.up(IntervalClass::PERFECT_FOURTH)
}

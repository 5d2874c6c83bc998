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

impl Role {
    /// Whether it is at home, away or pulls.
    #[must_use]
    pub fn area(self) -> Area {
        match self {
            Self::Tonic | Self::TonicSubstitute | Self::BluesSeventh => Area::Home,
            Self::Subdominant
            | Self::MinorSubdominant
            | Self::Neapolitan
            | Self::Subtonic
            | Self::RelatedTwo(_)
            | Self::Borrowed
            | Self::MinorDominant
            | Self::SharpFourHalfDiminished
            | Self::OfKey(_)
            | Self::Chromatic => Area::Away,
            Self::Dominant
            | Self::SuspendedDominant
            | Self::CadentialSixFour
            | Self::LeadingTone
            | Self::AppliedDominant(_)
            | Self::AppliedLeadingTone(_)
            | Self::TritoneSubstitute(_)
            | Self::AugmentedSixth(_)
            | Self::CommonToneAugmentedSixth
            | Self::Backdoor
            | Self::FallingDiminished
            | Self::CommonToneDiminished => Area::Pull,
        }
    }

    /// The degree that the chord leads to or belongs to, if it is named by one.
    #[must_use]
    pub fn target(self) -> Option<Degree> {
        match self {
            Self::AppliedDominant(target)
            | Self::AppliedLeadingTone(target)
            | Self::RelatedTwo(target)
            | Self::TritoneSubstitute(target)
            | Self::AugmentedSixth(target)
            | Self::OfKey(target) => Some(target),
            Self::Tonic
            | Self::TonicSubstitute
            | Self::Subdominant
            | Self::MinorSubdominant
            | Self::Neapolitan
            | Self::Subtonic
            | Self::Dominant
            | Self::SuspendedDominant
            | Self::CadentialSixFour
            | Self::LeadingTone
            | Self::MinorDominant
            | Self::CommonToneAugmentedSixth
            | Self::Backdoor
            | Self::Borrowed
            | Self::SharpFourHalfDiminished
            | Self::FallingDiminished
            | Self::CommonToneDiminished
            | Self::BluesSeventh
            | Self::Chromatic => None,
        }
    }

    /// The degree that a dominant resolves to, whatever its form: a dominant seventh, a
    /// leading-tone chord, a tritone substitute or an augmented sixth.
    #[must_use]
    pub fn leads_to(self) -> Option<Degree> {
        match self {
            Self::Dominant | Self::LeadingTone => Some(Degree::TONIC),
            Self::AppliedDominant(target)
            | Self::AppliedLeadingTone(target)
            | Self::TritoneSubstitute(target)
            | Self::AugmentedSixth(target) => Some(target),
            Self::Tonic
            | Self::TonicSubstitute
            | Self::Subdominant
            | Self::MinorSubdominant
            | Self::Neapolitan
            | Self::Subtonic
            | Self::SuspendedDominant
            | Self::CadentialSixFour
            | Self::MinorDominant
            | Self::RelatedTwo(_)
            | Self::CommonToneAugmentedSixth
            | Self::Backdoor
            | Self::Borrowed
            | Self::SharpFourHalfDiminished
            | Self::FallingDiminished
            | Self::CommonToneDiminished
            | Self::BluesSeventh
            | Self::OfKey(_)
            | Self::Chromatic => None,
        }
    }

    /// The role in words, its target as a numeral of the mode.
    #[must_use]
    pub fn words(self, mode: Mode, notation: Notation) -> String {
        self.words_naming(|degree| degree_numeral(degree, mode, notation))
    }

    /// The role in words, its target as `named` says.
    pub(crate) fn words_naming(self, named: impl Fn(Degree) -> String) -> String {
        match self {
            Self::Tonic => "tonic".to_owned(),
            Self::TonicSubstitute => "tonic substitute".to_owned(),
            Self::Subdominant => "subdominant".to_owned(),
            Self::MinorSubdominant => "minor subdominant".to_owned(),
            Self::Neapolitan => "Neapolitan".to_owned(),
            Self::Subtonic => "subtonic".to_owned(),
            Self::Dominant => "dominant".to_owned(),
            Self::SuspendedDominant => "suspended dominant".to_owned(),
            Self::CadentialSixFour => "cadential six-four".to_owned(),
            Self::LeadingTone => "leading-tone chord".to_owned(),
            Self::MinorDominant => "minor dominant".to_owned(),
            Self::AppliedDominant(target) => format!("dominant of {}", named(target)),
            Self::AppliedLeadingTone(target) => format!("leading-tone chord of {}", named(target)),
            Self::RelatedTwo(target) if target == Degree::TONIC => {
                "related ii of the tritone substitute".to_owned()
            }
            Self::RelatedTwo(target) => format!("related ii of {}", named(target)),
            Self::TritoneSubstitute(target) if target == Degree::TONIC => {
                "tritone substitute of the dominant".to_owned()
            }
            Self::TritoneSubstitute(target) => {
                format!("tritone substitute, leading to {}", named(target))
            }
            Self::AugmentedSixth(target) => format!("augmented sixth of {}", named(target)),
            Self::CommonToneAugmentedSixth => "common-tone augmented sixth".to_owned(),
            Self::Backdoor => "backdoor dominant".to_owned(),
            Self::Borrowed => "borrowed from the parallel mode".to_owned(),
            Self::SharpFourHalfDiminished => "half-diminished on the raised fourth".to_owned(),
            Self::FallingDiminished => "falling diminished seventh".to_owned(),
            Self::CommonToneDiminished => "common-tone diminished seventh".to_owned(),
            Self::BluesSeventh => "resting seventh chord".to_owned(),
            Self::OfKey(target) => format!("chord of the key of {}", named(target)),
            Self::Chromatic => "chromatic chord".to_owned(),
        }
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

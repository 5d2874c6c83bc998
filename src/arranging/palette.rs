//! What the upper voices may take from a chord: which notes must sound, which may be
//! left out, which may be doubled and at what cost.

use crate::theory::{
    Chord, Degree, Fifth, Head, IntervalClass, Member, Mode, Numeral, PitchClass, Quality, Seventh,
    Third,
};

/// The usual number of upper voices; a chord that needs them all doubles nothing.
const ROOM: usize = 3;

/// One note of a chord as the voices see it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ingredient {
    pub(super) class: PitchClass,
    pub(super) member: Member,
    /// Must sound in an upper voice.
    pub(super) required: bool,
    /// How often the upper voices may have it.
    pub(super) most: usize,
    /// Cost of each doubling, and of leaving it out.
    pub(super) doubling: i32,
    pub(super) omission: i32,
}

impl Ingredient {
    pub(super) fn chroma(&self) -> i32 {
        self.class.chromatic()
    }
}

/// A chord laid out for voicing. No two ingredients share a sound.
#[derive(Clone, Debug)]
pub(super) struct Palette {
    pub(super) ingredients: Vec<Ingredient>,
    pub(super) root: PitchClass,
    pub(super) bass: PitchClass,
    /// The member in the bass, if the bass is one of the chord's own notes.
    pub(super) bass_member: Option<Member>,
    pub(super) leading_tone: Option<PitchClass>,
    pub(super) substitute: bool,
    pub(super) suspended: bool,
    pub(super) diminished_seventh: bool,
    tonic: PitchClass,
    mode: Mode,
}

/// How a note departs from the scale of the key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Alteration {
    None,
    Raised,
    Lowered,
}

/// What makes a note want to move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tendency {
    LeadingTone,
    Seventh,
    /// A note foreign to the key, a suspended fourth, a flat ninth, the inner notes of a
    /// diminished seventh.
    Altered,
}

impl Palette {
    pub(super) fn new(chord: &Chord) -> Self {
        let bass = chord.bass();
        let numeral = chord.numeral();
        let own_bass = chord
            .tones()
            .iter()
            .find(|tone| tone.class.chromatic() == bass.chromatic());
        let mut palette = Self {
            ingredients: Vec::new(),
            root: chord.root(),
            bass,
            bass_member: own_bass.map(|tone| tone.member),
            leading_tone: leading_tone(chord),
            substitute: matches!(
                numeral.head,
                Head::Substitute { .. } | Head::AugmentedSixth(_)
            ),
            suspended: numeral.quality().third == Third::Fourth,
            diminished_seventh: numeral.quality().seventh == Some(Seventh::Diminished),
            tonic: chord.key().tonic(),
            mode: chord.key().mode(),
        };
        for tone in chord.tones() {
            let ingredient = palette.ingredient(tone.class, tone.member, numeral);
            match palette
                .ingredients
                .iter_mut()
                .find(|other| other.chroma() == ingredient.chroma())
            {
                Some(twin) => twin.required |= ingredient.required,
                None => palette.ingredients.push(ingredient),
            }
        }
        palette
    }

    fn ingredient(&self, class: PitchClass, member: Member, numeral: &Numeral) -> Ingredient {
        let quality = numeral.quality();
        let in_bass = class.chromatic() == self.bass.chromatic();
        // A sixth chord without its fifth is a triad on its sixth.
        let plain_fifth = member == Member::Fifth
            && !quality.added_sixth
            && class.above(self.root) == IntervalClass::PERFECT_FIFTH
            && quality.third != Third::Omitted
            && !matches!(numeral.head, Head::AugmentedSixth(_));
        let once = match member {
            Member::Sixth | Member::Seventh | Member::Tension => true,
            // The flat sixth of an augmented sixth pulls down as strongly as the seventh up.
            Member::Root if matches!(numeral.head, Head::AugmentedSixth(_)) => true,
            Member::Root | Member::Third | Member::Fifth => {
                self.leads_or_is_foreign(class, member, quality)
            }
        };
        let most = match (once, in_bass) {
            (true, true) => 0,
            (true, false) => 1,
            (false, _) => 2,
        };
        Ingredient {
            class,
            member,
            required: !in_bass && !plain_fifth,
            most,
            doubling: self.doubling(member, quality),
            omission: match () {
                () if !plain_fifth || in_bass => 0,
                () if quality.tensions.iter().next().is_some() => 4,
                () if quality.seventh.is_some() || quality.added_sixth => 14,
                // Root and minor third alone are as well the top of the major chord below.
                () if quality.third == Third::Minor => 90,
                () => 40,
            },
        }
    }

    /// Whether a note must not be doubled: a leading tone, or a note foreign to the key.
    /// The root of a borrowed triad (♭VI, ♭VII) is foreign but stable.
    fn leads_or_is_foreign(&self, class: PitchClass, member: Member, quality: Quality) -> bool {
        let stable_root = member == Member::Root
            && quality.fifth == Fifth::Perfect
            && !quality.is_dominant_seventh();
        let foreign = self.alteration(class) != Alteration::None;
        self.leading_tone == Some(class) || (foreign && !stable_root)
    }

    /// Whether a note is the lowered second degree, which falls to the seventh below it
    /// even where the natural second follows.
    pub(super) fn is_flat_second(&self, class: PitchClass) -> bool {
        Degree::at(class.above(self.tonic)) == Degree::new(2, -1)
    }

    fn doubling(&self, member: Member, quality: Quality) -> i32 {
        let in_bass = self.bass_member == Some(member);
        let stable = quality.fifth == Fifth::Perfect;
        match member {
            Member::Root if stable => 0,
            Member::Root => 10,
            // A fifth in the bass is the note of a six-four chord to double.
            Member::Fifth if stable => {
                if in_bass {
                    0
                } else {
                    5
                }
            }
            Member::Fifth => 14,
            Member::Third if !stable => 0,
            Member::Third if quality.third == Third::Minor => 8,
            Member::Third => 16,
            Member::Sixth | Member::Seventh | Member::Tension => 40,
        }
    }

    /// Whether a note stands outside the scale, and on which side.
    pub(super) fn alteration(&self, class: PitchClass) -> Alteration {
        let fifths = class.above(self.tonic).fifths();
        // In minor the raised sixth and seventh belong to the melodic scale.
        let (flattest, sharpest) = match self.mode {
            Mode::Major => (-1, 5),
            Mode::Minor => (-4, 5),
        };
        if fifths < flattest {
            Alteration::Lowered
        } else if fifths > sharpest {
            Alteration::Raised
        } else {
            Alteration::None
        }
    }

    /// Whether an upper voice may move to a sound as its resolution. Not if the bass
    /// resolves it instead, on a note that is not to be doubled or that three upper voices
    /// have no room for. A seventh that falls to the root of another seventh chord, as from
    /// V7 to iii7, is left to the bass: third, seventh and the common tone fill the voices.
    pub(super) fn receives(&self, chroma: i32, tendency: Tendency) -> bool {
        let doubles = matches!(self.bass_member, Some(Member::Root | Member::Fifth));
        let room = match tendency {
            Tendency::Seventh => ROOM - 1,
            Tendency::LeadingTone | Tendency::Altered => ROOM,
        };
        let bass_takes_it = chroma == self.bass.chromatic() && (!doubles || self.need() >= room);
        !bass_takes_it && self.has(chroma)
    }

    pub(super) fn has(&self, chroma: i32) -> bool {
        self.ingredients
            .iter()
            .any(|ingredient| ingredient.chroma() == chroma && ingredient.most > 0)
    }

    /// How many upper voices the notes that must sound take.
    pub(super) fn need(&self) -> usize {
        self.ingredients
            .iter()
            .filter(|ingredient| ingredient.required)
            .count()
    }

    /// Which ingredient sounds as a MIDI number.
    pub(super) fn sounding(&self, midi: i32) -> Option<usize> {
        self.ingredients
            .iter()
            .position(|ingredient| ingredient.chroma() == midi.rem_euclid(12))
    }
}

/// The note of a chord that leads upward: the major third of a dominant, the root of a
/// diminished chord on a seventh degree or on a raised one.
fn leading_tone(chord: &Chord) -> Option<PitchClass> {
    let Head::Roman { root, quality } = chord.numeral().head else {
        return None;
    };
    let plain = |number| root.number() == number && root.alteration() == 0;
    if (quality.third, quality.fifth) == (Third::Minor, Fifth::Diminished) {
        let raised = root.alteration() > 0 && quality.seventh != Some(Seventh::Minor);
        return (raised || plain(7)).then(|| chord.root());
    }
    let dominant = quality.is_dominant_seventh() || plain(5);
    (dominant && quality.third == Third::Major)
        .then(|| chord.member(Member::Third))
        .flatten()
}

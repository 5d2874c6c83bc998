//! How lines begin, how their phrases pause and how they close.

use rand::{Rng, RngExt};

use super::board::Board;
use super::bridge::draw;
use super::chord::Chord;
use super::vocabulary::Vocabulary;
use crate::devices::Kind;
use crate::theory::{Degree, Head, IntervalClass, Mode, Numeral, Quality};

/// What a line may open on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Openings {
    Tonic,
    /// Now and then a subdominant or a substitute of the tonic.
    OfTheKey,
    /// As often as not a chord on the way home.
    OfTunes,
    /// Oftener than not another chord, of the key or not.
    AnyChord,
}

impl Openings {
    fn share_off_tonic(self) -> f64 {
        match self {
            Self::Tonic => 0.0,
            Self::OfTheKey => 0.2,
            Self::OfTunes => 0.6,
            Self::AnyChord => 0.75,
        }
    }
}

/// Openings off the tonic and how often they are met in the repertoire, in per cent
/// (counted in the Jazz Harmony Treebank, Harasim et al. 2020; the small ones rounded up).
/// IV is met in 1.8 of a hundred tunes; here it comes oftener, because no other opening is
/// so easily taken for home. What they lead to is written out where the key alone would take
/// them elsewhere.
const OPENINGS_MAJOR: [(&str, f64); 9] = [
    ("ii7", 8.9),
    ("vi7", 3.0),
    ("IV", 5.0),
    ("V7/V", 1.5),
    ("viiø7 V7/vi vi7", 0.9),
    ("iii7", 0.9),
    ("V7/ii", 0.9),
    ("iiø7", 0.9),
    ("v7 V7/IV IV", 0.9),
];
/// Openings of phrases, not of whole tunes, which begin on the way home oftener; set by hand.
const OPENINGS_OF_TUNES: [(&str, f64); 8] = [
    ("ii7", 25.0),
    ("IV", 9.0),
    ("vi7", 3.0),
    ("iii7 V7/ii", 2.5),
    ("v7 V7/IV", 1.0),
    ("V7/V", 1.0),
    ("V7/ii", 0.5),
    ("V7", 0.5),
];
/// From memory; the Treebank's minor tunes are few.
const OPENINGS_MINOR: [(&str, f64); 4] = [("iiø7", 4.0), ("iv7", 4.0), ("bVI", 2.0), ("V7", 2.0)];

/// First chords off the tonic, of the key alone or any.
fn off_tonic(vocabulary: &Vocabulary, openings: Openings, random: &mut impl Rng) -> Vec<Chord> {
    let all: &[(&str, f64)] = match vocabulary.mode {
        Mode::Major => &OPENINGS_MAJOR,
        Mode::Minor => &OPENINGS_MINOR,
    };
    let table = match (openings, vocabulary.mode) {
        (Openings::OfTunes, Mode::Major) => &OPENINGS_OF_TUNES,
        (Openings::AnyChord | Openings::OfTunes, _) => all,
        (Openings::Tonic | Openings::OfTheKey, _) => &all[..3],
    };
    // Square roots keep the order of the repertoire and let the rare ones be heard.
    let weights: Vec<f64> = table.iter().map(|(_, share)| share.sqrt()).collect();
    let (text, _) = table[draw(&weights, random).unwrap_or(0)];
    let chords = text.split(' ').map(|text| vocabulary.read(text));
    chords.collect()
}

/// How often the middle section of a form begins away from the tonic.
const CONTRAST: f64 = 0.75;

/// Chords on which a middle section begins; common practice.
const CONTRASTS_MAJOR: [(&str, f64); 5] = [
    ("IV", 3.0),
    ("vi7", 2.0),
    ("ii7", 2.0),
    ("iii7", 1.5),
    ("V7", 0.5),
];
const CONTRASTS_MINOR: [(&str, f64); 4] =
    [("bIII", 2.0), ("iv7", 3.0), ("bVI", 2.0), ("bVII", 1.0)];

/// Lets the sections that stand against the others begin away from home.
pub(super) fn contrast(board: &mut Board<'_>, random: &mut impl Rng) {
    let vocabulary = board.vocabulary;
    let table: &[(&str, f64)] = match vocabulary.mode {
        Mode::Major => &CONTRASTS_MAJOR,
        Mode::Minor => &CONTRASTS_MINOR,
    };
    let weights: Vec<f64> = table.iter().map(|(_, weight)| *weight).collect();
    for at in 0..board.cells.len() {
        if board.cells[at].contrasts && board.is_free(at) && random.random_bool(CONTRAST) {
            let (text, _) = table[draw(&weights, random).unwrap_or(0)];
            board.set_if_it_joins(at, vocabulary.read(text));
        }
    }
}

/// Gives the inner phrases that are still open their last chord: most pause on the
/// dominant, some come home, the rest run on. A phrase whose answer begins like it leaves
/// coming home to the answer.
pub(super) fn pause_phrases(board: &mut Board<'_>, random: &mut impl Rng) {
    let vocabulary = board.vocabulary;
    for at in 0..board.cells.len() - 1 {
        if !board.cells[at].ends_phrase || !board.is_free(at) {
            continue;
        }
        let next = board.planned(at + 1);
        let next_is_home = next.is_some_and(Chord::is_home);
        let asks = board.cells[at + 1].copy_of.is_some();
        let shares = if asks {
            [0.75, 0.0, 0.25]
        } else {
            [0.55, 0.2, 0.25]
        };
        let pause = match draw(&shares, random) {
            Some(0) => vocabulary.dominant(),
            Some(1) if !next_is_home => vocabulary.tonic(),
            Some(_) | None => continue,
        };
        board.set_if_it_joins(at, pause);
    }
}

/// Closes the line on the tonic; tells whether the chord before it allows that.
pub(super) fn close(board: &mut Board<'_>) -> bool {
    let last = board.cells.len() - 1;
    !board.is_free(last) || board.set_if_it_joins(last, board.vocabulary.tonic())
}

/// Draws the chord before a closing tonic: the dominant, the subdominant, or as the path
/// may have it.
pub(super) fn cadence(board: &mut Board<'_>, random: &mut impl Rng) {
    let vocabulary = board.vocabulary;
    let last = board.cells.len() - 1;
    let closes = board.planned(last).is_some_and(Chord::is_home);
    if !closes || last < 2 || !board.is_free(last - 1) {
        return;
    }
    let quality = match vocabulary.mode {
        Mode::Major => Quality::MAJOR,
        Mode::Minor => Quality::MINOR,
    };
    let four = Numeral::roman(Degree::new(4, 0), quality);
    let chord = match draw(&[0.5, 0.1, 0.4], random) {
        Some(0) => vocabulary.dominant(),
        Some(1) => vocabulary.chord(four, false),
        Some(_) | None => return,
    };
    board.set_if_it_joins(last - 1, chord);
}

/// Dominants that end a phrase when the next begins on another chord than home.
const ONWARD_MAJOR: [(&str, f64); 3] = [("V7/ii", 5.0), ("V7/IV", 4.0), ("V7/vi", 2.0)];
const ONWARD_MINOR: [(&str, f64); 2] = [("V7/iv", 4.0), ("bVII7", 1.0)];

/// Ends the line on the dominant of a chord on which another phrase would begin; tells
/// whether what is planted allows that.
pub(super) fn lead_on(board: &mut Board<'_>, random: &mut impl Rng) -> bool {
    let table: &[(&str, f64)] = match board.vocabulary.mode {
        Mode::Major => &ONWARD_MAJOR,
        Mode::Minor => &ONWARD_MINOR,
    };
    let weights: Vec<f64> = table.iter().map(|(_, weight)| *weight).collect();
    let (text, _) = table[draw(&weights, random).unwrap_or(0)];
    let chord = board.vocabulary.read(text);
    board.set_if_it_joins(board.cells.len() - 1, chord)
}

/// Ends the line on the dominant of its first chord, where that has one of its own.
pub(super) fn turn_back(board: &mut Board<'_>) {
    let vocabulary = board.vocabulary;
    let last = board.cells.len() - 1;
    let Some(first) = board.planned(0).cloned() else {
        return;
    };
    let root = first.numeral.root().up(IntervalClass::PERFECT_FIFTH);
    // Nothing tonicises a half-diminished chord.
    if first.shape.kind == Kind::HalfDiminished {
        board.set(last, vocabulary.dominant());
        return;
    }
    let turn = dominant_of(&first, root);
    // I7 turns back to IV best from a tonic that has just been reached.
    if root == Degree::TONIC && last >= 3 && board.is_free(last - 1) && board.is_free(last - 2) {
        board.set(last - 2, vocabulary.dominant());
        board.set(last - 1, vocabulary.tonic());
    }
    board.set(last, vocabulary.chord(turn, false));
}

/// The dominant seventh of a chord, written as applied to it where it has a plain name.
fn dominant_of(chord: &Chord, root: Degree) -> Numeral {
    let plain = match chord.shape.kind {
        Kind::Major => Some(Quality::MAJOR),
        Kind::Minor => Some(Quality::MINOR),
        Kind::HalfDiminished
        | Kind::Dominant
        | Kind::Diminished
        | Kind::Augmented
        | Kind::Suspended => None,
    };
    match plain.filter(|_| chord.step != 0) {
        None => Numeral::roman(root, Quality::DOMINANT_SEVENTH),
        Some(quality) => Numeral {
            head: Head::Roman {
                root: Degree::new(5, 0),
                quality: Quality::DOMINANT_SEVENTH,
            },
            target: Some(Box::new(Numeral::roman(chord.numeral.root(), quality))),
            bass: None,
        },
    }
}

/// Opens the line, on the tonic or now and then elsewhere. Tells whether that goes with
/// what follows.
pub(super) fn open(board: &mut Board<'_>, openings: Openings, random: &mut impl Rng) -> bool {
    if !board.is_free(0) {
        return true;
    }
    let vocabulary = board.vocabulary;
    if random.random_bool(openings.share_off_tonic())
        && board.plant(0, &off_tonic(vocabulary, openings, random))
    {
        return true;
    }
    board.set_if_it_joins(0, vocabulary.tonic())
}

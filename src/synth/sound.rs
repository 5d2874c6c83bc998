//! What a sound is made of, checked. Owns the words of a sound file; what they mean in
//! hertz and decibels is in `spectrum` and `voice`.

use crate::arranging::Drum;
use crate::theory::Pitch;

/// A pitched sound by name. Every value has been checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Sound {
    /// The stable name, such as `electric-piano`.
    pub id: String,
    /// The name a person reads.
    pub title: String,
    /// One sentence: what it is good for.
    pub about: String,
    /// The lowest and the highest playable pitch.
    pub range: (Pitch, Pitch),
    pub(super) instrument: Instrument,
}

/// The instruments of the rhythm section, one for each [`Drum`].
#[derive(Clone, Debug, PartialEq)]
pub struct Kit {
    /// The stable name, such as `brushes`.
    pub id: String,
    /// The name a person reads.
    pub title: String,
    /// One sentence: what it is good for.
    pub about: String,
    /// In the order of [`Drum::ALL`].
    pub(super) pieces: Vec<(Drum, Instrument)>,
}

/// Layers that speak together, a body they share, and how notes begin and end.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Instrument {
    pub(super) shape: Shape,
    pub(super) layers: Vec<Layer>,
    pub(super) body: Vec<Filter>,
}

/// How a note begins, ends and stands in the room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Shape {
    /// Rise in milliseconds.
    pub(super) attack: f64,
    /// Milliseconds from letting go to silence.
    pub(super) release: f64,
    /// 0: all notes in the middle; 1: the lowest hard left, the highest hard right.
    pub(super) spread: f64,
    /// Level against other instruments, in decibels.
    pub(super) level: f64,
    /// Level sent into the room, in decibels.
    pub(super) room: f64,
    /// Change of level in decibels for each octave above middle C.
    pub(super) tilt: f64,
    /// A slow swelling of all notes together, as of a vibraphone's fans.
    pub(super) tremolo: Option<Tremolo>,
    /// Seconds after which a player strikes what is held again; none: never.
    pub(super) restrike: Option<f64>,
}

/// A change of level to and fro.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Tremolo {
    /// Times a second.
    pub(super) hertz: f64,
    /// How much is taken away at the lowest, in decibels.
    pub(super) depth: f64,
}

/// One part of a sound.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Layer {
    String(Strung),
    Modes(Modes),
    Noise(Burst),
}

/// A stiff, damped string, struck or plucked at a point.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Strung {
    /// Decibels against the other layers.
    pub(super) level: f64,
    /// How many partials at most.
    pub(super) partials: usize,
    /// Where it is set going, as a part of its length.
    pub(super) at: f64,
    /// Where a pickup listens, as a part of its length; none: everywhere.
    pub(super) pickup: Option<f64>,
    pub(super) stiffness: Stiffness,
    pub(super) tone: Tone,
    pub(super) decay: Decay,
    /// A second, slower polarisation of the same string.
    pub(super) after: Option<After>,
}

/// The inharmonicity B of a stiff string: partial n lies at `n f √(1 + B n²)`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stiffness {
    /// B of middle C.
    pub(super) middle: f64,
    /// Octaves in which B doubles upwards.
    pub(super) octaves: f64,
    /// The least B, that of overspun basses.
    pub(super) least: f64,
}

/// How long partials last.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Decay {
    /// Seconds in which the fundamental of middle C falls by 60 dB.
    pub(super) seconds: f64,
    /// The factor on it for each octave upwards.
    pub(super) octave: f64,
    /// Seconds for a partial at 5 kHz, whatever its note.
    pub(super) high: f64,
}

/// The aftersound of a coupled string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct After {
    /// Decibels against the first sound.
    pub(super) level: f64,
    /// How many times longer it lasts.
    pub(super) longer: f64,
    /// Cents above the first sound.
    pub(super) cents: f64,
    /// How many partials have it, counted from the lowest.
    pub(super) partials: usize,
}

/// A soft low-pass over a spectrum, opened by touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Tone {
    /// Corner in hertz for middle C at ordinary strength.
    pub(super) hertz: f64,
    /// How far the corner follows the pitch: 0 fixed, 1 in step.
    pub(super) follow: f64,
    /// Octaves the corner moves from strength 0 to 1.
    pub(super) touch: f64,
    /// Decibels an octave above the corner.
    pub(super) slope: f64,
}

/// Named partials, decaying (bars, tines) or held (pipes).
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Modes {
    pub(super) level: f64,
    pub(super) modes: Vec<Mode>,
    pub(super) tone: Tone,
    /// The swelling and fading of a group of players.
    pub(super) shimmer: Option<Shimmer>,
    /// The factor on each decay for each octave above middle C.
    pub(super) octave: f64,
}

/// One named partial.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Mode {
    /// Frequency against the note's.
    pub(super) ratio: f64,
    /// Decibels at ordinary strength.
    pub(super) level: f64,
    /// Seconds to fall by 60 dB at middle C; none: held.
    pub(super) decay: Option<f64>,
    /// Decibels gained from strength 0.6 to 1, lost as much from 0.6 to 0.2.
    pub(super) touch: f64,
}

/// Two companions of every partial, as far above as below, in such phases that its level
/// swells while its pitch stands still.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Shimmer {
    /// Cents that the companions are away.
    pub(super) cents: f64,
    /// Decibels of each against the partial.
    pub(super) level: f64,
}

/// Filtered noise: hammer, plectrum, wind, brush.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Burst {
    pub(super) level: f64,
    /// Band in hertz.
    pub(super) low: f64,
    pub(super) high: f64,
    /// Milliseconds to fall by 60 dB; none: held.
    pub(super) decay: Option<f64>,
    /// Decibels gained from strength 0.6 to 1.
    pub(super) touch: f64,
}

/// A filter of the body, shared by all notes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Filter {
    pub(super) kind: FilterKind,
    pub(super) hertz: f64,
    pub(super) q: f64,
    /// Decibels; of no meaning for the passes.
    pub(super) gain: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum FilterKind {
    Bell,
    LowShelf,
    HighShelf,
    LowPass,
    HighPass,
}

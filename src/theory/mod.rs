//! Spelled notes, keys, numerals, chords and lines. Owns how harmony is written and what
//! notes it means; knows nothing of sound, chance, files or teaching.
//!
//! ```
//! use plagal::theory::{Chord, Key, Notation, Numeral};
//!
//! let numeral: Numeral = "V7/ii".parse()?;
//! let key: Key = "G".parse()?;
//! let chord = Chord::new(&numeral, key)?;
//! assert_eq!(chord.symbol().written(Notation::Text), "E7");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod chord;
mod degree;
mod key;
mod line;
mod name_error;
mod notation;
mod numeral;
mod pitch;
mod played_symbol;
mod quality;
mod quoted;
mod roman_text;
mod symbol;
mod time;

pub use chord::{Chord, Tone, TooRemote};
pub use degree::Degree;
pub use key::{Key, KeyError, Mode};
pub use line::{Line, LineError, LineFault, Slot};
pub use name_error::NameError;
pub use notation::Notation;
pub use numeral::{AugmentedSixth, BareSix, DEEPEST_TARGET, Expected, Head, Numeral, NumeralError};
pub use pitch::{IntervalClass, OCTAVE, Pitch, PitchClass};
pub use quality::{Fifth, Member, Quality, Seventh, Tension, Tensions, Third};
pub(crate) use quoted::quoted;
pub use roman_text::{RomanText, RomanTextError, RomanTextExpected};
pub use symbol::{Symbol, SymbolError};
pub use time::{Meter, TICKS_PER_BEAT, Ticks};

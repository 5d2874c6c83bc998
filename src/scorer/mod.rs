//! What the learner can hear, and what to ask next: entries in, standings and choices
//! out. Owns the model of the learner; may not touch the screen, files or the clock. The
//! same entries give the same result, bit for bit, on every machine.

mod ability;
mod all_or_none;
mod beta;
mod bias;
mod choice;
mod confusion;
mod digest;
mod exemplar;
mod family;
mod filter;
mod fold;
mod model;
mod observation;
mod outlook;
mod reach;
mod recent;
mod settings;
mod standing;
mod tally;
mod weight;

pub use bias::Bias;
pub use choice::{Choice, Exemplar, Reason};
pub use confusion::Confusion;
pub use digest::{Digest, Digester};
pub use fold::Scorer;
pub use reach::{Reach, difficulty, key_setting};
pub use settings::Wishes;
pub use standing::{Standing, Trend, Word};

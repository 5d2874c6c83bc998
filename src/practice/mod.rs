//! A drill at work: carries out what a session wants with the scorer, the journal and the
//! player. Both the full screen and the plain text drive it. Knows no music rules and
//! prints nothing.

mod due;
mod entry;
mod keeper;
mod performer;
mod run;
mod steering;

pub use due::{Due, due};
pub use keeper::{Keeper, Person};
pub use performer::{PAUSE, Performer, Position};
pub use run::{Notice, Practice, Start};
pub use steering::wishes;

//! Progressions: the grammar that makes them, the reading of what their chords do, and
//! which answers are the same. Knows no octaves and no sound.

mod analysis;
mod common;
mod equivalence;
mod grammar;
mod progression;
mod reading;
mod role;

pub use analysis::{Context, role, roles};
pub use common::Common;
pub use equivalence::{ChordInContext, Tier, current_name, plain_name, usual_name};
pub use grammar::{Phrasing, Refusal, Request, Style, chorus_names, progression};
pub use progression::Progression;
pub use reading::{Analysis, Reading, analyse, namesakes};
pub use role::{Area, Role, degree_numeral};

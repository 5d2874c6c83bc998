//! What the players of several textures share: time, bass lines, comping, brushes, an
//! improvised line.

mod bass;
mod brushes;
mod comping;
mod groove;
mod melody;
mod scale;
mod segment;
mod walk;

pub(super) use bass::alternate;
pub(super) use brushes::{brush, stir};
pub(super) use comping::comp;
pub(super) use groove::Groove;
pub(super) use melody::improvise;
pub(super) use scale::passing;
pub(super) use segment::{Segment, segments};
pub(super) use walk::walk;

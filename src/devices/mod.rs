//! Named harmonic idioms: what they are made of and where a line holds them. Owns the
//! catalogue; may not touch chance or files.

/// Pairs each id with the text of its file in `catalogue/`.
macro_rules! files {
    ($($id:literal),* $(,)?) => {
        [$(($id, include_str!(concat!("catalogue/", $id, ".json")))),*]
    };
}

mod built_in;
mod catalogue;
mod device;
mod family;
mod finder;
mod id;
mod pattern;
mod rule;
mod shape;

pub use catalogue::{Catalogue, CatalogueError, Occurrence};
pub use device::{Device, Example, Form};
pub use family::Family;
pub use id::DeviceId;
pub use pattern::{Expansion, Pattern, PatternError, PatternFault, Wanted};
pub use rule::Rule;
pub use shape::{Kind, Shape};

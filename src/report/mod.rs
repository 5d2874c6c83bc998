//! Entries and standings as tables and pictures, all of them data. Owns what a page of
//! progress says; may not print.

mod audit;
mod calendar;
mod curve;
mod export;
mod heat;
mod history;
mod progress;
mod table;

pub use audit::{Audit, Plan, audit};
pub use calendar::{Calendar, Week, day};
pub use curve::{Curve, Point};
pub use export::{CSV_HEAD, csv_rows};
pub use heat::{Heat, Map};
pub use history::History;
pub use progress::{Change, Confused, Device, Progress};
pub use table::{Facts, Table};

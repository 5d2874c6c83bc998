//! What was asked and answered, one self-contained line of JSON an answered question.
//! Owns the entry, its versions and the line; may not open files.

mod entry;
mod fault;
mod line;
mod printed;
mod views;

pub use entry::{Difficulty, Entry, KeySetting, SlotAnswer};
pub use fault::JournalFault;
pub use line::{BYTE_ORDER_MARK, FORMAT, JournalLine, Versioned, parse, print};
pub use views::{Few, Offers, ReportedEntry, ReportedSlot, ScoredEntry, ScoredSlot, Text};

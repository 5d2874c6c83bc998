//! The journal on disk: opening, mending a torn tail, appending under a lock, reading.
//! Owns the file and nothing of what its lines mean.

mod append;
mod disk;
mod doubt;
mod failure;
mod fold;
mod forget;
mod id;
mod lock;
mod merge;
mod read;
mod rescue;
mod tail;

pub use append::{JournalFile, Mended};
pub use failure::{KeepError, Unsaved, WriteError};
pub use fold::{Folded, fold_journal};
pub use forget::forget;
pub use id::fresh_session;
pub use merge::{MergeError, Merged, merge};
pub use read::{Read, read_entries, scan};
pub use rescue::{Rescued, left_behind};

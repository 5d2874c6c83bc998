//! Appending: one write and one flush to disk an answer, under a lock, so that two
//! programs may share a journal and a crash costs at most the answer being written.

use std::io::Write;
use std::path::{Path, PathBuf};

use super::disk::{flush_names, make_folder_of, resolved};
use super::doubt;
use super::failure::{KeepError, Unsaved, WriteError};
use super::forget;
use super::lock::locked;
use super::rescue::{Rescue, Rescued};
use super::tail;
use crate::journal::{Entry, print};

/// What opening found and set right.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mended {
    /// Bytes of a torn last line, now in a file beside the journal.
    pub set_aside: u64,
}

/// A journal that answers are appended to. It holds no open file between answers, so
/// another program may rewrite or move the journal in the meantime.
#[derive(Debug)]
pub struct JournalFile {
    path: PathBuf,
    waiting: Vec<String>,
    /// Whether some that wait may be in the journal: neither writing them nor taking them
    /// back was done to its end.
    is_in_doubt: bool,
    rescue: Rescue,
}

impl JournalFile {
    /// Names the journal, mends its tail, and clears away what a killed program left. A
    /// missing file is made at the first answer. What the journal refuses is put at once
    /// into a rescue file, whose name holds `session`, in the first of `folders` that takes
    /// it: no way of dying loses it then.
    ///
    /// # Errors
    /// When the file is there but cannot be mended; answers can still be given to
    /// [`Self::append`], which tries again.
    pub fn open(
        path: &Path,
        session: &str,
        folders: &[PathBuf],
    ) -> (Self, Result<Mended, KeepError>) {
        let journal = Self {
            path: resolved(path),
            waiting: Vec::new(),
            is_in_doubt: false,
            rescue: Rescue::new(session, folders),
        };
        let mended = if journal.path.exists() {
            journal
                .mend()
                .map_err(|cause| journal.error(cause, Vec::new()))
        } else {
            Ok(Mended::default())
        };
        (journal, mended)
    }

    /// Where the journal is.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Answers that are not in the journal yet.
    #[must_use]
    pub fn waiting(&self) -> usize {
        self.waiting.len()
    }

    /// Writes the entry, and any that still waits, and flushes it to disk.
    ///
    /// # Errors
    /// When it is not in the journal. Nothing of it is left there; it waits in memory, and
    /// in the rescue file if there is one, for the next call or for [`Self::settle`].
    pub fn append(&mut self, entry: &Entry) -> Result<(), KeepError> {
        self.waiting.push(print(entry));
        self.try_again()
    }

    fn try_again(&mut self) -> Result<(), KeepError> {
        if self.waiting.is_empty() {
            return Ok(());
        }
        match self.write() {
            Ok(()) => {
                self.waiting.clear();
                self.is_in_doubt = false;
                self.rescue.discard();
                Ok(())
            }
            Err(cause) => {
                let refused = self.rescue.keep(&self.waiting);
                Err(self.error(cause, refused.err().unwrap_or_default()))
            }
        }
    }

    /// Tries once more to write what waits; where the journal still refuses it, tells the
    /// rescue file that holds it. Nothing when nothing waits.
    ///
    /// # Errors
    /// When no folder took it either; it comes back, and still waits.
    pub fn settle(&mut self) -> Result<Option<Rescued>, Unsaved> {
        let Err(error) = self.try_again() else {
            return Ok(None);
        };
        match self.rescue.rescued() {
            Some(rescued) if rescued.answers == self.waiting.len() => Ok(Some(rescued)),
            Some(_) | None => Err(Unsaved {
                error,
                lines: self.waiting.clone(),
            }),
        }
    }

    fn error(&self, cause: WriteError, elsewhere: Vec<(PathBuf, WriteError)>) -> KeepError {
        KeepError {
            file: self.path.clone(),
            cause,
            waiting: self.waiting.len(),
            elsewhere,
        }
    }

    fn mend(&self) -> Result<Mended, WriteError> {
        let mut file = locked(&self.path)?;
        forget::clear(&self.path)?;
        let tail = tail::mend(&mut file, &self.path)?;
        Ok(Mended {
            set_aside: tail.set_aside,
        })
    }

    fn write(&mut self) -> Result<(), WriteError> {
        make_folder_of(&self.path)?;
        let mut file = locked(&self.path)?;
        let tail = tail::mend(&mut file, &self.path)?;
        let lines = if self.is_in_doubt {
            doubt::missing(&self.path, &self.waiting)?
        } else {
            self.waiting.concat()
        };
        let written = file
            .write_all(lines.as_bytes())
            .and_then(|()| file.sync_data())
            // Each time: another program may have put a new file under this name since.
            .and_then(|()| flush_names(&self.path));
        if let Err(error) = written {
            // Half a line must not stay: the whole of it will be written again.
            let is_back = file.set_len(tail.length).is_ok();
            self.is_in_doubt |= !is_back && file.metadata().is_ok_and(|data| data.is_file());
            return Err(error.into());
        }
        Ok(())
    }
}

//! Forgetting a learner: the journal without that learner's lines.

use std::fs::{self, File};
use std::io::{self, BufRead, BufReader, BufWriter, Write};
use std::path::{Path, PathBuf};

use super::disk::{create_anew, flush_names, remove, resolved, with_suffix};
use super::failure::WriteError;
use super::lock::locked;
use super::tail;
use crate::journal::{JournalLine, ScoredEntry, parse};

/// Takes a learner's answers out of the journal for good, and says how many they were. Of
/// a link to the journal, the file that it leads to is the journal. Lines of newer programs
/// and damaged lines stay, and so does every other learner. Another program may go on
/// appending: the journal is locked until the shorter one has taken its place.
///
/// # Errors
/// When the shorter journal cannot be written; the old one is untouched then.
pub fn forget(path: &Path, learner: &str) -> Result<usize, WriteError> {
    let path = &resolved(path);
    if !path.exists() {
        return Ok(0);
    }
    let mut journal = locked(path)?;
    tail::mend(&mut journal, path)?;
    let taken_out = copy_without(path, learner).inspect_err(|_| {
        // What is half written is of no use to anyone.
        let _ = clear(path);
    })?;
    fs::rename(shorter(path), path)?;
    // Nobody can tell whose the torn lines were; they held no whole answer.
    remove(&tail::aside(path))?;
    flush_names(path)?;
    drop(journal);
    Ok(taken_out)
}

/// Removes what a program left that was killed while it forgot. The journal is whole
/// without it. The caller holds the lock, so nobody is forgetting now.
pub(super) fn clear(path: &Path) -> io::Result<()> {
    remove(&shorter(path))
}

fn shorter(path: &Path) -> PathBuf {
    with_suffix(path, ".shorter")
}

fn copy_without(path: &Path, learner: &str) -> io::Result<usize> {
    let mut from = BufReader::new(File::open(path)?);
    let to = create_anew(&shorter(path))?;
    to.set_permissions(from.get_ref().metadata()?.permissions())?;
    let mut to = BufWriter::new(to);
    let mut line = Vec::new();
    let mut taken_out = 0;
    while from.read_until(b'\n', &mut line)? > 0 {
        if is_of(&line, learner) {
            taken_out += 1;
        } else {
            to.write_all(&line)?;
        }
        line.clear();
    }
    to.into_inner()?.sync_all()?;
    Ok(taken_out)
}

fn is_of(line: &[u8], learner: &str) -> bool {
    std::str::from_utf8(line).is_ok_and(|text| {
        matches!(parse::<ScoredEntry>(text), Ok(JournalLine::Known(entry)) if entry.learner.as_str() == learner)
    })
}

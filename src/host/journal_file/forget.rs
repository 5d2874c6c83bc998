//! Forgetting a learner: the journal without that learner's lines.

use std::fs::{self, File, OpenOptions};
use std::io::{self, BufRead, BufReader, BufWriter, Write};
use std::path::{Path, PathBuf};

use super::append::locked;
use super::failure::Why;
use super::tail;
use crate::journal::{Glance, Line, parse};

/// Takes a learner's answers out of the journal for good, and says how many they were.
/// Lines of newer programs and damaged lines stay, and so does every other learner.
/// Another program may go on appending: the journal is locked until the shorter one has
/// taken its place.
///
/// # Errors
/// When the shorter journal cannot be written; the old one is untouched then.
pub fn forget(path: &Path, learner: &str) -> Result<usize, Why> {
    if !path.exists() {
        return Ok(0);
    }
    let mut journal = locked(path)?;
    tail::mend(&mut journal, path)?;
    let beside = beside(path);
    let taken_out = copy_without(path, &beside, learner).inspect_err(|_| {
        // What is half written is of no use to anyone.
        let _ = fs::remove_file(&beside);
    })?;
    fs::rename(&beside, path)?;
    // Nobody can tell whose the torn lines were; they held no whole answer.
    if let Err(error) = fs::remove_file(tail::aside(path))
        && error.kind() != io::ErrorKind::NotFound
    {
        return Err(error.into());
    }
    drop(journal);
    Ok(taken_out)
}

fn beside(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".shorter");
    name.into()
}

fn copy_without(path: &Path, beside: &Path, learner: &str) -> io::Result<usize> {
    let mut from = BufReader::new(File::open(path)?);
    let shorter = OpenOptions::new()
        .write(true)
        .create(true)
        .truncate(true)
        .open(beside)?;
    shorter.set_permissions(fs::metadata(path)?.permissions())?;
    let mut to = BufWriter::new(shorter);
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
        matches!(parse::<Glance>(text), Ok(Line::Known(glance)) if glance.learner.as_str() == learner)
    })
}

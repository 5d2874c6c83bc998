//! Answers that may be in the journal, after writing them failed and taking them back too.

use std::fs::File;
use std::io::{self, BufRead, BufReader, Seek, SeekFrom, Write};
use std::path::Path;

use super::disk::private;

/// Of these lines, those that are not in the journal. Those that are there are written again
/// where they stand, because after a flush that failed Linux takes them for flushed; the same
/// bytes, so that nothing is torn if it ends there. The caller holds the lock.
pub(super) fn missing(journal: &Path, lines: &[String]) -> io::Result<String> {
    let mut again = private().write(true).open(journal)?;
    let mut from = BufReader::new(File::open(journal)?);
    let mut missing = lines.to_vec();
    let (mut at, mut line) = (0, Vec::new());
    while from.read_until(b'\n', &mut line)? > 0 {
        if let Some(known) = missing.iter().position(|own| own.as_bytes() == line) {
            again.seek(SeekFrom::Start(at))?;
            again.write_all(&line)?;
            missing.remove(known);
        }
        at += line.len() as u64;
        line.clear();
    }
    again.sync_data()?;
    Ok(missing.concat())
}

//! What a file that is written can be, and how it is written whole.

use std::fs;
use std::io::{self, Cursor};
use std::path::Path;

use super::failure::Failure;
use crate::host::wav::{Depth, write_wav};
use crate::synth::Samples;

/// What a file can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Format {
    Wav,
    Midi,
    /// The chords as a score, whatever the texture.
    MusicXml,
}

/// What becomes of a file that is there already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Existing {
    Keep,
    Overwrite,
}

/// The bytes of a WAV file.
pub(super) fn wav(samples: &Samples) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    write_wav(samples, Depth::Sixteen, &mut bytes)
        .expect("a line is far shorter than the longest WAV file");
    bytes.into_inner()
}

impl Format {
    pub(super) const WORDS: &[(&str, Self)] = &[
        ("wav", Self::Wav),
        ("mid", Self::Midi),
        ("musicxml", Self::MusicXml),
    ];

    pub(super) fn of(path: &Path) -> Result<Self, Failure> {
        let extension = path.extension().map(std::ffi::OsStr::to_ascii_lowercase);
        match extension.as_ref().and_then(|extension| extension.to_str()) {
            Some("wav") => Ok(Self::Wav),
            Some("mid" | "midi") => Ok(Self::Midi),
            Some("musicxml" | "xml") => Ok(Self::MusicXml),
            Some(_) | None => Err(Failure::Usage(format!(
                "error: `{}` names no format; expected a file that ends in .wav, .mid or .musicxml\n",
                path.display()
            ))),
        }
    }
}

/// Writes a file whole or not at all: a failure leaves what was there before.
pub(super) fn write_whole(path: &Path, bytes: &[u8], existing: Existing) -> io::Result<()> {
    if existing == Existing::Keep && path.symlink_metadata().is_ok() {
        let what = "it is there already; `--force` overwrites it";
        return Err(io::Error::new(io::ErrorKind::AlreadyExists, what));
    }
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(format!(".{}.part", std::process::id()));
    let part = path.with_file_name(name);
    let written = fs::write(&part, bytes).and_then(|()| fs::rename(&part, path));
    if written.is_err() {
        // The failure that is told is the first one.
        let _ = fs::remove_file(&part);
    }
    written
}

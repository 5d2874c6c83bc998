//! The journal on disk and in lines.

mod file;
mod fold;
mod line;
mod merge;
#[cfg(unix)]
mod private;

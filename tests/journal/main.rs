//! The journal on disk and in lines.

mod file;
mod fold;
mod line;

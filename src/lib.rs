//! plagal trains the ear to hear what each chord does in its key.
//!
//! The floors of the house, each importing only from those above it, are described in
//! DEVELOPERS.md. Down to `report` they are pure: they need no feature, and compile to
//! WebAssembly as they are. The feature `files` adds `host` and `practice`, `terminal` adds `tui`
//! and `cli`, `audio` adds playback.

pub mod document;
pub mod theory;

pub mod devices;

pub mod harmony;

pub mod arranging;

pub mod synth;

pub mod exercise;

pub mod quiz;

pub mod journal;

pub mod scorer;

pub mod trial;

pub mod report;

#[cfg(feature = "files")]
pub mod host;

#[cfg(feature = "files")]
pub mod practice;

#[cfg(feature = "terminal")]
pub mod tui;

#[cfg(feature = "terminal")]
pub mod cli;

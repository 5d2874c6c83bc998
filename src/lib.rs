//! plagal trains the ear to hear what each chord does in its key.
//!
//! The floors of the house, each importing only from those above it, are described in
//! DEVELOPERS.md.

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

pub mod report;

pub mod host;

pub mod practice;

pub mod tui;

pub mod cli;

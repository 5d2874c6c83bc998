//! The world outside: sound device, files, clock and seed. Knows nothing of music's rules.

pub mod clock;
pub mod directories;
pub mod journal_file;
pub mod library;
pub mod midi;
pub mod musicxml;
pub mod player;
pub mod regular;
pub mod settings;
pub mod signals;
pub mod wav;

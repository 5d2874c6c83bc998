//! The trainer driven by presses, on a screen in memory.

mod desk;
mod looks;
mod scripts;
mod senseless;

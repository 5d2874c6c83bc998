//! The program run as a command: what it prints, and how it ends.

mod basics;
mod library;
mod mistakes;
mod render;
mod run;
mod spell;
